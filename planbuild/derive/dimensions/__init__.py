"""Dimensions: what must be said of a part, which of it is printed, and where it stands on the paper.

`measures` lists the numbers of every feature, `tree` picks those that say everything once, `rows` and
`notes` place them around a view.
"""
