"""Take back what was given."""

from scout.services.context import Context


def undo(context: Context) -> str:
    """Take back the last thing given on this device and say what it was."""
    from scout.store.undo import undo_last

    undone = undo_last(context.engine, context.stamp)
    nouns = list(dict.fromkeys(entity.replace("_", " ") for entity, _ in undone.rows))
    walk_row = next((row_id for entity, row_id in undone.rows if entity == "walk"), None)
    return f"Taken back: {', '.join(nouns[:3])}." if walk_row is None else "Taken back; the walk goes on."
