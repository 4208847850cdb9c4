"""Compiles one declarative design of a piece of furniture into a printable plan set."""
