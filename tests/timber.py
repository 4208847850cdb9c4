"""Boards by hand for the tests of shape and prove: the smallest part or piece that shows a case.

Units: mm.  A board lies with its grain left to right unless said otherwise.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Box, Face, Motion, Span1
from planbuild.core.units import Ruler, Unit
from planbuild.records.features import Feature, Kerf, Mate, Mortise, Taper, Tenon, Wedging
from planbuild.records.piece import Contact, Copy, Glue, Imprint, Joint, Part, Piece, Practice, Stock, ThemeWish

LEFT_RIGHT, FRONT_BACK, BOTTOM_TOP = Axis
HERE = Span("by-hand.yaml", 7, 3)


def box(x0: float, x1: float, y0: float, y1: float, z0: float, z1: float) -> Box:
    return Box(Span1(x0, x1), Span1(y0, y1), Span1(z0, z1))


PLAIN = box(0, 400, 0, 60, 0, 20)


def said(id: str = "it", joint: str = "") -> dict[str, Any]:
    """The fields that every feature has."""
    return {"id": id, "origin": HERE, "joint": joint, "why": ""}


def board(
    *features: Feature,
    body: Box = PLAIN,
    id: str = "board",
    grain: Axis = LEFT_RIGHT,
    face: Face = Face.TOP,
    edge: Face = Face.FRONT,
    copies: tuple[Motion, ...] = (Motion(),),
    stock: str = "ash",
    **more: Any,
) -> Part:
    standing = tuple(Copy(str(number) if len(copies) > 1 else "", motion) for number, motion in enumerate(copies, start=1))
    return Part(id, id[0].upper(), id, HERE, stock, grain, face, edge, body, features, standing, 25.0, 6.0, **more)


def piece(*parts: Part, joints: tuple[Joint, ...] = (), stock: tuple[Stock, ...] = ()) -> Piece:
    practice = Practice(25.0, 6.0, 1.5, 3.0, 0.25, 1 / 3, 6.0, 6.0, (6.0, 10.0), 300.0)
    imprint = Imprint("Trial", "", "", "", "", "", "A", "2026-01-01", (), "not yet built")
    return Piece(
        imprint=imprint,
        ruler=Ruler(Unit.MM, Fraction(1, 2)),
        frame=box(0, 1000, 0, 1000, 0, 1000),
        sizes=(),
        stock=stock or (Stock("ash", HERE, "white ash", "8/4", 65.0, 60.0, "flat"),),
        parts=parts,
        joints=joints,
        items=(),
        hardware=(),
        assemblies=(),
        steps=(),
        coatings=(),
        glue=Glue("PVA", 8.0, 60.0),
        loads=(),
        moisture=(6.0, 11.0, 8.0),
        practice=practice,
        editions=(),
        theme=ThemeWish(""),
    )


# ---------------------------------------------------------------- a frame: two posts, a rail between them

RAIL = box(40, 300, 10, 30, 80, 120)
LEFT_POST = box(0, 40, 0, 40, 0, 200)
TENON = box(15, 40, 15, 25, 86, 114)


def frame() -> Piece:
    """A rail with blind tenons between two mirrored posts; mortises 1.5 deeper than the tenons are long."""
    mirror = Motion((-1, 1, 1), (340.0, 0.0, 0.0))
    mortise = Mortise(
        **said("rails.rail", "rails"),
        face=Face.RIGHT,
        void=TENON.with_span(LEFT_RIGHT, Span1(13.5, 40)),
        mate=Mate("rail", (0,)),
    )
    post = board(
        mortise, body=LEFT_POST, id="post", grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT, copies=(Motion(), mirror)
    )
    left = Tenon(**said("rails.left", "rails"), end=Face.LEFT, block=TENON, mate=Mate("post", (0,)))
    right = replace(left, id="rails.right", end=Face.RIGHT, block=mirror.box(TENON), mate=Mate("post", (1,)))
    rail = board(left, right, body=RAIL, id="rail", face=Face.FRONT, edge=Face.TOP)
    ends = ((-1.0, 0, Span1(40, 40)), (1.0, 1, Span1(300, 300)))
    contacts = tuple(
        Contact(("rail", 0), ("post", copy), (way, 0.0, 0.0), RAIL.with_span(LEFT_RIGHT, plane), 40.0, 2 * 25.0 * 28)
        for way, copy, plane in ends
    )
    return piece(post, rail, joints=(joint("rails", *contacts),))


def joint(id: str, *contacts: Contact, **more: Any) -> Joint:
    plain = {"glue": True, "fit": "snug", "numbers": (), "operations": (), "tools": ()}
    return Joint(id, "mortise and tenon", id, HERE, contacts, **{**plain, **more})


def changed(whole: Piece, id: str, **changes: Any) -> Piece:
    """The piece with something changed on one part."""
    return replace(whole, parts=tuple(replace(p, **changes) if p.id == id else p for p in whole.parts))


def refitted(whole: Piece, id: str, feature: str, **changes: Any) -> Piece:
    """The piece with something changed on one feature of a part."""
    features = tuple(replace(f, **changes) if f.id == feature else f for f in whole.part(id).features)
    return changed(whole, id, features=features)


# ---------------------------------------------------------------- a wedged through tenon

POST = LEFT_POST
FLARE, KERF, PROUD, DEPTH = 1.5, 1.5, 3.0, 38.0
FAR = 0.0
"""Where the far face of the post is; the shoulder is at 40."""
BEND = -PROUD + DEPTH
"""Plane of the kerfs' bottoms."""


def wedged_rail(kerfs: tuple[float, ...] = (94.0, 106.0)) -> Part:
    sawn = tuple(Kerf(BOTTOM_TOP, plane, KERF, DEPTH) for plane in kerfs)
    tenon = Tenon(
        **said("wedged.left", "wedged"),
        end=Face.LEFT,
        block=box(-PROUD, 40, 15, 25, 86, 114),
        mate=Mate("post", (0,)),
        through=True,
        proud=PROUD,
        wedging=Wedging(sawn, BOTTOM_TOP, FLARE, "wedge"),
        tip_chamfer=0.5,
    )
    return board(tenon, body=RAIL, id="rail", face=Face.FRONT, edge=Face.TOP)


def flared_post() -> Part:
    mortise = Mortise(
        **said("wedged.rail", "wedged"),
        face=Face.RIGHT,
        void=box(0, 40, 15, 25, 86, 114),
        mate=Mate("rail", (0,)),
        through=True,
        flare=FLARE,
        flare_axis=BOTTOM_TOP,
        flare_from=BEND,
    )
    return board(mortise, body=POST, id="post", grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT)


def wedge() -> Part:
    """As long as the kerf, as thick at its thin end as the kerf is wide; one above and one below."""
    thick = KERF + FLARE * DEPTH / BEND
    taper = Taper(**said("taper"), faces=(Face.TOP,), end=Face.RIGHT, start=-PROUD, leaving=((BOTTOM_TOP, KERF),))
    body = box(-PROUD, BEND, 15, 25, 106 - KERF / 2, 106 - KERF / 2 + thick)
    copies = (Motion(), Motion((1, 1, -1), (0.0, 0.0, 200.0)))
    return board(taper, body=body, id="wedge", face=Face.FRONT, edge=Face.TOP, copies=copies, made_by="wedged")


def wedged_frame() -> Piece:
    """Post, rail and its two wedges, in place; each wedge goes home from outside."""
    shoulder = RAIL.with_span(LEFT_RIGHT, Span1(40, 40))
    bottom = wedge().body.with_span(LEFT_RIGHT, Span1(BEND, BEND)).with_span(BOTTOM_TOP, Span1(106 - KERF / 2, 106 + KERF / 2))
    home = Contact(("rail", 0), ("post", 0), (-1.0, 0.0, 0.0), shoulder, 40.0, 2 * 40.0 * 28)
    driven = Contact(("wedge", 0), ("rail", 0), (1.0, 0.0, 0.0), bottom, 0.0, 2 * DEPTH * 10)
    lower = replace(driven, a=("wedge", 1), shoulder=wedge().copies[1].motion.box(bottom))
    whole = joint("wedged", home, driven, lower, makes=("wedge",))
    return piece(flared_post(), wedged_rail(), wedge(), joints=(whole,))
