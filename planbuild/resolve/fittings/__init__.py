"""Kinds of hardware: the fields each has, the simple solid that stands for it, and what is cut for it."""
