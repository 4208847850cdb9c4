"""A photo that a designer names, with the words under it.  Publish alone opens the file."""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.records.said import Said


@dataclass(frozen=True)
class Photo:
    """`file` lies in the design's folder."""

    file: str
    caption: str


def photo_of(said: Said | None, what: str) -> Photo | None:
    """The caption is what the long form says (`{value: knob.jpg, help: "..."}`), else what it is a photo of."""
    return Photo(said.text, said.help or said.why or f"Photo of {what}") if said else None


def shown(photo: Photo | None) -> tuple[Photo, ...]:
    """As the facts hold it."""
    return (photo,) if photo else ()
