"""The paper that a line of lettering takes up; measured in `records.legibility`, where proofread finds it too."""

from planbuild.records.legibility import PaperBox, overlap, text_box

__all__ = ["PaperBox", "overlap", "text_box"]
