"""Ground that every stage stands on: units, plain geometry, diagnostics, files.  Imports nothing else of ours."""
