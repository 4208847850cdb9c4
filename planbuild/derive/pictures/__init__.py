"""Pictures of the piece, its joints and the steps: from solids to neutral drawings.

A `studio.Studio` holds what all pictures are taken from.  `cover`, `exploded`, `three_views`, `section`,
`joint_pictures`, `joint_sections` and `step_picture` each draw one kind; `labels` and `arrows` find room for
what is written around a view, `compose` makes the view as large as that allows.
"""
