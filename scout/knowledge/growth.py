"""How fast a crop's fruit grows: what a crop file says under `[growth]`."""

from typing import Literal

from pydantic import Field, model_validator

from scout.knowledge.strict import Id, Span, Strict, Text

SizeId = Literal["fruit_small", "fruit_half", "fruit_full", "fruit_ripe"]
"""Sizes of the odd fruit: circumstances by these ids, the newest of which holds."""


class FruitAge(Strict):
    """One size of a fruit as a grower sees it, and how old a fruit of that size is."""

    size: SizeId
    name: Text
    up_to_cm: float | None = Field(default=None, gt=0, le=200)
    """Longest fruit of this size; None: told by eye, or, where the smaller sizes have one, any longer fruit."""
    age_d: Span
    """Days since the flower opened, at the crop's `at_c`."""


class Growth(Strict):
    """How fast the fruit grows from its flower, and how fast at which temperature."""

    at_c: float = Field(ge=5, le=35)
    """Mean of day and night for which `flower_to_pick_d` and the ages below are told."""
    base_c: float = Field(ge=0, le=20)
    """Nothing grows at or below it."""
    fastest_c: float | None = Field(default=None, le=45)
    """Growth rises in a straight line up to it, and no further."""
    days_at_c: tuple[tuple[float, float], ...] = ()
    """Instead of fastest_c: mean temperatures and the days from flower to harvest measured there."""
    young_d: Span | None = None
    """Age at which the flower end is starved, and rots later."""
    recovers_d: Span | None = None
    """Days after heat ends until flowers set as usual."""
    sizes: tuple[FruitAge, ...] = ()
    source: Id
    """Of the temperatures."""
    size_source: Id
    """Of the ages by size, the age of starving and the days to recover."""

    @model_validator(mode="after")
    def _in_order(self) -> "Growth":
        if (self.fastest_c is None) == (not self.days_at_c):
            raise ValueError("give either fastest_c or days_at_c")
        warmth = [self.base_c, *(point for point, _ in self.points)]
        if warmth != sorted(set(warmth)):
            raise ValueError("fastest_c or days_at_c must rise from above base_c")
        if self.at_c <= self.base_c:
            raise ValueError("at_c must lie above base_c")
        return self

    @property
    def points(self) -> tuple[tuple[float, float], ...]:
        """Return temperatures and days, for the pace; where only a straight line is known its scale says nothing."""
        return self.days_at_c if self.fastest_c is None else ((self.fastest_c, 1.0),)
