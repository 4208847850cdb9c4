"""`like:` for parts, joints and shapes: one level of replacement, chains, circles."""

from __future__ import annotations

from small_designs import PLAIN, Read, Told

from planbuild.records.design import Design
from planbuild.records.shapes_said import ChamferSaid


def with_details(details: str, part: str = "", joints: str = "") -> str:
    return PLAIN.replace("top: 0", f"top: 0{part}") + f"details:\n{details}" + joints


def shape_of(design: Design) -> ChamferSaid:
    (chamfer,) = design.parts["shelf"].shape
    assert isinstance(chamfer, ChamferSaid)
    return chamfer


SOFT = "  soft: {chamfer: {edges: long, size: 1/16, why: kind}}\n"


def test_a_bare_name(read: Read) -> None:
    assert shape_of(read(with_details(SOFT, ", shape: [soft]"))).size.text == "1/16"
    assert shape_of(read(with_details(SOFT, ", shape: soft"))).size.text == "1/16"


def test_a_field_beside_like_wins(read: Read) -> None:
    chamfer = shape_of(read(with_details(SOFT, ", shape: [{like: soft, size: 1/8}]")))
    assert (chamfer.size.text, chamfer.edges[0].text, chamfer.why and chamfer.why.text) == ("1/8", "long", "kind")


def test_a_detail_like_another(read: Read) -> None:
    more = SOFT + "  softer: {like: soft, size: 1/8}\n  softest: {like: softer, edges: all}\n"
    chamfer = shape_of(read(with_details(more, ", shape: [softest]")))
    assert (chamfer.size.text, chamfer.edges[0].text) == ("1/8", "all")


def test_the_place_of_a_shape_is_where_it_is_used(read: Read) -> None:
    design = read(with_details(SOFT, ", shape: [soft]"))
    assert shape_of(design).origin.line == 10
    assert shape_of(design).size.span.line == 12


def test_a_part_like_a_detail_replaces_whole_fields(read: Read) -> None:
    detail = "  plank: {stock: board, grain: up, glue_up: {strips: 2, rings: same}, note: from the detail}\n"
    design = read(PLAIN + "  other: {like: plank, grain: front-back, glue_up: {strips: 3}}\ndetails:\n" + detail)
    other = design.parts["other"]
    assert (other.stock.text, other.grain.text, other.note and other.note.text) == ("board", "front-back", "from the detail")
    assert getattr(other.glue_up, "rings", "?") is None


def test_a_joint_like_a_detail(read: Read) -> None:
    detail = "  pegged: {kind: mortise and tenon, thickness: 3/8, shoulders: {top: 1/2, bottom: 1/4}}\n"
    design = read(with_details(detail, joints="joints:\n  rails: {like: pegged, tenon: shelf, shoulders: {top: 1/8}}\n"))
    joint = design.joints["rails"]
    assert joint.thickness.text == "3/8"  # type: ignore[attr-defined]
    assert list(joint.shoulders) == ["top"]  # type: ignore[attr-defined]


def test_a_joint_detail_may_lack_its_members_but_a_joint_may_not(told: Told) -> None:
    detail = "  pegged: {kind: mortise and tenon, thickness: 3/8}\n"
    (found,) = told(with_details(detail, joints="joints:\n  rails: {like: pegged}\n"))
    assert (found.code, "`tenon`" in found.message) == ("read-missing-key", True)


def test_a_fault_in_a_detail_is_told_once(told: Told) -> None:
    (found,) = told(with_details(SOFT.replace("size", "sise"), ", shape: [soft, soft, {like: soft, edges: all}]"))
    assert found.code == "read-unknown-key"


def test_unused_details_are_looked_at_too(told: Told) -> None:
    (found,) = told(with_details("  bracket: {stock: board, grian: up}\n"))
    assert (found.code, found.hints) == ("read-unknown-key", ('Did you mean "grain"?',))


def test_a_circle_is_told_once_with_its_chain(told: Told) -> None:
    found = told(with_details("  a: {like: b}\n  b: {like: c}\n  c: {like: a}\n", ", shape: [a, b, c]"))
    assert [each.code for each in found] == ["detail-circle"]
    assert "a > b > c > a" in found[0].message


def test_a_chain_as_long_as_may_be(read: Read) -> None:
    chain = SOFT + "".join(f"  d{n}: {{like: {f'd{n - 1}' if n else 'soft'}}}\n" for n in range(199))
    assert shape_of(read(with_details(chain, ", shape: [d198]"))).size.text == "1/16"


def test_like_of_a_list(told: Told) -> None:
    (found,) = told(with_details(SOFT, ", like: [soft]"))
    assert found.code == "read-wrong-type"
