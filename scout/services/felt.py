"""What the grower's hand felt at a planting today: an estimate never takes its place."""

from scout.services.context import Context
from scout.services.garden import Planted

_DRY = "leaves_felt_dry"
"""Kept beside the answers on how a planting is grown; no clue of any cause."""


def feel_leaves(context: Context, planting_id: str, *, dry: bool) -> None:
    """Keep that the leaves feel dry, or wet, now."""
    from scout.store.tables_garden import Circumstance

    at, offset = context.moment()
    with context.write() as tx:
        tx.add(
            Circumstance,
            planting_id=planting_id,
            circumstance=_DRY,
            value=dry,
            observed_at=at,
            observed_offset_min=offset,
        )


def leaves_felt_dry(context: Context, plant: Planted) -> bool | None:
    """Return what was felt last at this planting today: True dry, False wet, None not felt."""
    from scout.store import marked, plantings

    day = context.today.isoformat()
    with context.read() as session:
        measured = marked.measurements(session=session, planting_id=plant.planting_id)
        said = plantings.circumstances_said(session=session, planting_id=plant.planting_id).get(_DRY)
    felt = [(m.observed_at, m.wet == "dry") for m in measured if m.wet != "not_felt"]
    if said is not None:
        felt.append((said[1], said[0]))
    today = [one for one in felt if one[0] >= day]
    return max(today, key=lambda one: (one[0], not one[1]))[1] if today else None  # of one minute, wet holds
