"""What the pages say of a mortise and tenon: its sizes by name, the work it takes, the tools for it."""

from __future__ import annotations

from planbuild.core.geometry import TINY
from planbuild.joints.base import Site
from planbuild.joints.mortise_and_tenon.cutting import Cut, by_end
from planbuild.joints.mortise_and_tenon.haunch import Haunched
from planbuild.joints.mortise_and_tenon.pegging import Pegged
from planbuild.joints.mortise_and_tenon.sizes import Sizes
from planbuild.joints.mortise_and_tenon.tusk import Keyed
from planbuild.joints.touching import gap

Number = tuple[str, float | int | str]


def numbers(cuts: list[Cut]) -> tuple[Number, ...]:
    """Sizes by name, mm; a size that is not the same in all parts carries the name of its part."""
    by_part: dict[str, list[Number]] = {}
    for tenons in by_end(cuts):
        known = by_part.setdefault(tenons[0].sizes.end.board.name, [])
        known += [each for each in map(_rounded, _numbers(tenons)) if each not in known]
    parts = list(by_part)
    shared = [each for each in by_part[parts[0]] if all(each in by_part[part] for part in parts)]
    own = [(f"{each[0]}, {part}", each[1]) for part in parts for each in by_part[part] if each not in shared]
    return (*shared, *own)


def _rounded(number: Number) -> Number:
    """Free of the noise of sums, so that equal sizes are known as equal."""
    name, value = number
    return (name, round(value, 6)) if isinstance(value, float) else number


def _numbers(tenons: list[Cut]) -> list[Number]:
    """The sizes of the tenons of one end, which are alike but for where they stand."""
    cut, sizes = tenons[0], tenons[0].sizes
    if sizes.round:
        return [*_round(sizes), *_wedges(cut)]
    found: list[Number] = [
        *([("tenons at each end", len(tenons))] if len(tenons) > 1 else []),
        ("tenon thickness", sizes.thickness),
        ("tenon width", sizes.width),
        ("tenon length", sizes.length),
        *([("between tenons", gap(sizes.section, tenons[1].sizes.section))] if len(tenons) > 1 else []),
        *_shoulders(tenons),
    ]
    if sizes.through:
        found += [("proud", sizes.proud)] if sizes.proud else []
    else:
        found.append(("mortise depth", sizes.depth))
    if cut.made.mitre:
        found.append(("mitre from the shoulder, on the short side", cut.made.mitre.start))
    found += _wedges(cut)
    if sizes.play:
        found += [("play at each side", sizes.play), ("clearance", 2 * sizes.play)]
    steps = [each.haunched for each in tenons if each.haunched]
    found += [number for step in steps for number in _haunch(step)]
    found += _pegs(cut.pegged) if cut.pegged else []
    return [*found, *_key(cut.keyed)] if cut.keyed else found


def _round(sizes: Sizes) -> list[Number]:
    found: list[Number] = [("tenon diameter", sizes.thickness), ("tenon length", sizes.length)]
    if not sizes.through:
        return [*found, ("hole depth", sizes.depth)]
    return [*found, *([("proud", sizes.proud)] if sizes.proud else [])]


def _wedges(cut: Cut) -> list[Number]:
    if cut.spread is None:
        return []
    kerf, count = cut.spread.wedging.kerfs[0], len(cut.spread.wedging.kerfs)
    found: list[Number] = [("wedges in each tenon", count), ("kerf width", kerf.width), ("kerf depth", kerf.depth)]
    return [*found, ("mortise flare at each end", cut.spread.wedging.flare)]


def _pegs(pegged: Pegged) -> list[Number]:
    hole = pegged.holes[0]
    found: list[Number] = [
        ("pegs in each tenon", len(pegged.holes)),
        ("peg diameter", hole.diameter),
        ("peg hole in the mate, from the shoulder", pegged.from_shoulder),
    ]
    return [*found, ("peg hole in the tenon, from the shoulder", hole.start), ("draw", hole.draw)] if hole.draw else found


def _haunch(made: Haunched) -> list[Number]:
    box, end = made.haunch.box, made.sizes.end.face.axis
    found: list[Number] = [("haunch length", box.size(end)), ("haunch width", box.size(made.haunch.face.axis))]
    if abs(box.size(made.sizes.thick) - made.sizes.thickness) > TINY:
        found.append(("haunch thickness", box.size(made.sizes.thick)))
    return [*found, *([("haunch mortise depth", made.depth)] if made.depth else [])]


def _key(keyed: Keyed) -> list[Number]:
    way, key = keyed.keyway, keyed.key
    return [
        ("key mortise from the shoulder", way.start),
        ("key mortise length, where the key goes in", way.length),
        ("key mortise length, where it comes out", way.length_at(keyed.sizes.section.size(way.face.axis))),
        ("key thickness", way.width),
        ("key length", key.size(way.face.axis)),
        ("key width at the head", key.size(keyed.sizes.end.face.axis)),
        ("key width at the tip", keyed.thin),
    ]


def _shoulders(tenons: list[Cut]) -> list[Number]:
    """Above and below by name; beside the cheeks in one word if the tenon is centred.  Bare faces have none."""
    sizes = tenons[0].sizes
    wide, beside = (sizes.wide.high, sizes.wide.low), (sizes.thick.low, sizes.thick.high)
    of = {face: min(each.sizes.shoulder(face) for each in tenons) for face in (*wide, *beside)}
    found: list[Number] = [(f"{face.value} shoulder", of[face]) for face in wide if of[face] > TINY]
    if abs(of[beside[0]] - of[beside[1]]) < TINY:
        return [*found, *([("shoulder beside each cheek", of[beside[0]])] if of[beside[0]] > TINY else [])]
    return [*found, *((f"{face.value} shoulder", of[face]) for face in beside if of[face] > TINY)]


def operations(cuts: list[Cut]) -> tuple[str, ...]:
    """The work, by the names of the table `operations`, in order."""
    found = ["bore", "round_tenon"] if cuts[0].sizes.round else ["mortise", "tenon"]
    if any(cut.made.mitre for cut in cuts):
        found.append("mitre")
    if any(cut.spread for cut in cuts):
        found += ["kerf", "wedge", "wedging"]
    if any(cut.keyed for cut in cuts):
        found += ["key", "wedge"]
    if any(cut.pegged for cut in cuts):
        found += ["bore", "peg", "pegging"]
    return tuple(found)


def tools(cuts: list[Cut], site: Site) -> tuple[str, ...]:
    if cuts[0].sizes.round:
        bores = sorted({round(cut.sizes.thickness, 3) for cut in cuts})
        return ("calliper", "spokeshave", *(f"drill bit {site.ruler.plain(width)}" for width in bores), *_spreading(cuts, site))
    widths = sorted({round(cut.sizes.thickness, 3) for cut in cuts})
    chisels = [f"chisel {site.ruler.plain(width)}" for width in widths]
    return ("mortise gauge", *chisels, "tenon saw", "shoulder plane", *_spreading(cuts, site))


def _spreading(cuts: list[Cut], site: Site) -> list[str]:
    """For wedges and pegs."""
    saws = ["thin-bladed saw", "small hammer"] if any(cut.spread for cut in cuts) else []
    bits = sorted({round(cut.pegged.holes[0].diameter, 3) for cut in cuts if cut.pegged})
    return [*saws, *(f"brad-point bit {site.ruler.plain(width)}" for width in bits)]
