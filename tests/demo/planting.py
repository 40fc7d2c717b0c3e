"""What is said at one planting of the demo garden."""

from datetime import date

from scout.services import garden
from scout.services.answer_shape import Answer
from scout.services.answering import answer_evidence
from scout.services.context import Context
from scout.services.evidence import bedside_for, evidence_for

SEASON_END = date(2026, 8, 21)


def answer_at(context: Context, bed: str, crop: str, variety: str | None = None) -> Answer:
    plant = plant_at(context, bed, crop, variety)
    evidence = evidence_for(context, plant)
    return answer_evidence(context.knowledge, evidence, bedside=bedside_for(context, plant, evidence))


def plant_at(context: Context, bed: str, crop: str, variety: str | None = None) -> garden.Planted:
    return next(
        one
        for one in garden.planted(context)
        if one.bed == bed and one.crop.id == crop and variety in (None, one.variety)
    )
