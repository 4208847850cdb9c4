"""What the pages say of a mortise and tenon: its sizes by name, the work it takes, the tools for it."""

from __future__ import annotations

from planbuild.core.geometry import TINY
from planbuild.joints.base import Site
from planbuild.joints.mortise_and_tenon.cutting import Cut

Number = tuple[str, float | int | str]


def numbers(cuts: list[Cut]) -> tuple[Number, ...]:
    """Sizes by name, mm; a size that is not the same in all parts carries the name of its part."""
    by_part: dict[str, list[Number]] = {}
    for cut in cuts:
        known = by_part.setdefault(cut.sizes.end.board.name, [])
        known += [each for each in map(_rounded, _numbers(cut)) if each not in known]
    parts = list(by_part)
    shared = [each for each in by_part[parts[0]] if all(each in by_part[part] for part in parts)]
    own = [(f"{each[0]}, {part}", each[1]) for part in parts for each in by_part[part] if each not in shared]
    return (*shared, *own)


def _rounded(number: Number) -> Number:
    """Free of the noise of sums, so that equal sizes are known as equal."""
    name, value = number
    return (name, round(value, 6)) if isinstance(value, float) else number


def _numbers(cut: Cut) -> list[Number]:
    sizes = cut.sizes
    found: list[Number] = [
        ("tenon thickness", sizes.thickness),
        ("tenon width", sizes.width),
        ("tenon length", sizes.length),
        *_shoulders(cut),
    ]
    if sizes.through:
        found += [("proud", sizes.proud)] if sizes.proud else []
    else:
        found.append(("mortise depth", sizes.depth))
    if cut.made.mitre:
        found.append(("mitre from the shoulder, on the short side", cut.made.mitre.start))
    if cut.spread:
        kerf = cut.spread.wedging.kerfs[0]
        found += [("wedges in each tenon", len(cut.spread.wedging.kerfs)), ("kerf width", kerf.width), ("kerf depth", kerf.depth)]
        found.append(("mortise flare at each end", cut.spread.wedging.flare))
    return found


def _shoulders(cut: Cut) -> list[Number]:
    """Above and below by name; beside the cheeks in one word if the tenon is centred."""
    sizes, beside = cut.sizes, (cut.sizes.thick.low, cut.sizes.thick.high)
    found: list[Number] = [(f"{face.value} shoulder", sizes.shoulder(face)) for face in (sizes.wide.high, sizes.wide.low)]
    if abs(sizes.shoulder(beside[0]) - sizes.shoulder(beside[1])) < TINY:
        return [*found, ("shoulder beside each cheek", sizes.shoulder(beside[0]))]
    return [*found, *((f"{face.value} shoulder", sizes.shoulder(face)) for face in beside)]


def operations(cuts: list[Cut]) -> tuple[str, ...]:
    """The work, by the names of the table `operations`, in order."""
    found = ["mortise", "tenon"]
    if any(cut.made.mitre for cut in cuts):
        found.append("mitre")
    if any(cut.spread for cut in cuts):
        found += ["kerf", "wedge", "wedging"]
    return tuple(found)


def tools(cuts: list[Cut], site: Site) -> tuple[str, ...]:
    widths = sorted({round(cut.sizes.thickness, 3) for cut in cuts})
    chisels = [f"chisel {site.ruler.plain(width)}" for width in widths]
    spreading = ["thin-bladed saw", "small hammer"] if any(cut.spread for cut in cuts) else []
    return ("mortise gauge", *chisels, "tenon saw", "shoulder plane", *spreading)
