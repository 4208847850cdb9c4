"""Together: how bodies come apart, and so how they go together.  Knows meshes and directions, nothing of furniture.

`blocking` looks at every two bodies along each way; `dismantle` takes them apart; both state in `columns` what they may miss.
"""

from planbuild.together.apart import Dismantled, Move, Parting, Way, dismantle, moves_out, straight
from planbuild.together.blocking import Blocking, blocking, opposite
from planbuild.together.columns import Mesh

__all__ = [
    "Blocking",
    "Dismantled",
    "Mesh",
    "Move",
    "Parting",
    "Way",
    "blocking",
    "dismantle",
    "moves_out",
    "opposite",
    "straight",
]
