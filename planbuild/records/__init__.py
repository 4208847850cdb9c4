"""The whole data story: what each stage hands to the next.  Imports only `core`."""
