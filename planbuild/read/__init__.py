"""Not yet written."""
