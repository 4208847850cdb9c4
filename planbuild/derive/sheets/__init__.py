"""Part sheets: the drawing of one part that a maker works from.

`part_sheet` tells the road: how the part lies (`lie`), which numbers it needs (`dimensions`), which views show
them (`plan`), what each view shows (`seen`), each drawn with its sizes (`drawn`), all composed on the page (`compose`).
"""
