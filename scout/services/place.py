"""How far north the garden lies: enough for sun and water, to the whole degree, and never shown or exported unasked."""

from scout.errors import BadInput, NotFound
from scout.services.context import Context


def set_latitude(context: Context, latitude_deg: float) -> str:
    """Keep the garden's latitude, south negative; return what was kept as a sentence."""
    from scout.store import beds
    from scout.store.tables_garden import Site

    if not -90.0 <= latitude_deg <= 90.0:
        raise BadInput(f"A latitude lies between -90 and 90 degrees, south negative; {latitude_deg:g} does not.")
    with context.read() as session:
        site = beds.site(session=session, garden_id=str(context.garden_id))
    if site is None:
        raise NotFound("There is no garden yet; set one up with 'bedwalk garden new', or open 'bedwalk demo'.")
    with context.write() as tx:
        tx.update(Site, site.id, latitude=latitude_deg)
    return f"Latitude kept: {abs(latitude_deg):g} degrees {'south' if latitude_deg < 0 else 'north'}."


def type_latitude(context: Context, text: str) -> str:
    """Keep a latitude as typed, such as 40 or -33,5; return what was kept."""
    from scout.intake.decimals import read_decimal

    return set_latitude(context, read_decimal(text))
