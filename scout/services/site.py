"""The garden this data folder holds: its site, this device, and how far north it lies."""

from dataclasses import dataclass
from pathlib import Path
from zoneinfo import ZoneInfo

from scout import paths
from scout.errors import BadInput, NotFound, StoreError
from scout.plain import shortened
from scout.services.context import Context


@dataclass(frozen=True)
class Site:
    """Where the garden lies and how it counts."""

    name: str
    zone: str
    units: str
    first_frost: str | None
    last_frost: str | None


def open_garden(context: Context) -> Site | None:
    """Return the site of this data folder's garden and make it the context's; None before one is set up.

    A device that is new to the garden is given an id of its own, kept beside the data.
    """
    from scout.store import beds

    with context.read() as session:
        found = beds.gardens(session=session)
        if not found:
            return None
        garden = found[0]
        site = beds.site(session=session, garden_id=garden.id)
        devices = beds.devices(session=session, garden_id=garden.id)
    context.garden_id = garden.id
    _know_device(context, {device.id for device in devices})
    if site is None:
        return Site(garden.name, "UTC", "metric", None, None)
    context.zone = ZoneInfo(site.zone)
    return Site(garden.name, site.zone, site.units, site.first_frost, site.last_frost)


def machine_zone(localtime: Path = Path("/etc/localtime")) -> str:
    """Return this machine's time zone where it says, as a first suggestion; else UTC."""
    import os

    told = os.environ.get("TZ", "")
    _, _, linked = os.path.realpath(localtime).partition("zoneinfo/")
    return next((zone for zone in (told, linked) if "/" in zone and not zone.startswith("/")), "UTC")


def site_of(context: Context) -> Site:
    """Return the site of the open garden; StoreError says how to set one up when there is none."""
    site = open_garden(context)
    if site is None:
        raise NotFound("There is no garden yet; set one up with 'bedwalk garden new', or open 'bedwalk demo'.")
    return site


def read_zone(text: str) -> str:
    """Return a time zone as it is known. Errors: BadInput."""
    from zoneinfo import available_timezones

    known = {zone.casefold(): zone for zone in available_timezones()}
    found = known.get(text.strip().replace(" ", "_").casefold())
    if found is None:
        raise BadInput(f"{shortened(text)!r} is no time zone; write it like Europe/Rome or America/Chicago.")
    return found


def read_frost(text: str) -> str | None:
    """Return a day of any year as "04-20", typed so or as "20 April"; None for nothing typed. Errors: BadInput."""
    from scout.intake.dates import read_date

    words = text.strip()
    if not words:
        return None
    for form in (f"2000-{words}", f"{words} 2000", words):  # a leap year, so that 29 February is a day
        try:
            return read_date(form).strftime("%m-%d")
        except BadInput:
            continue
    raise BadInput(f"{shortened(words)!r} is no day of the year; write it like 20 April or 04-20.")


def create_garden(
    context: Context,
    name: str,
    *,
    zone: str = "UTC",
    units: str = "metric",
    first_frost: str | None = None,
    last_frost: str | None = None,
    latitude: float | None = None,
    longitude: float | None = None,
) -> str:
    """Make the garden, its site and this device in one act; return the garden's id. One garden a data folder."""
    from scout.store.tables_garden import Device, Garden
    from scout.store.tables_garden import Site as StoredSite

    if open_garden(context) is not None:
        raise BadInput("There is a garden here already; choose another data folder with BEDWALK_HOME.")
    context.garden_id = context.new_id()
    context.root.mkdir(parents=True, exist_ok=True)
    context.device_id = _kept_device(paths.device_file(context.root), context.new_id())
    try:
        with context.write() as tx:
            tx.add(Garden, row_id=context.garden_id, name=name)
            tx.add(Device, row_id=context.device_id, name="this device")
            tx.add(
                StoredSite,
                zone=zone,
                units=units,
                first_frost=first_frost,
                last_frost=last_frost,
                latitude=latitude,
                longitude=longitude,
            )
    except BaseException:
        context.garden_id = None
        raise
    context.zone = ZoneInfo(zone)
    return context.garden_id


def latitude_of(context: Context) -> float | None:
    """Return the garden's latitude, degrees, south negative; kept apart from the site, which is shown and exported."""
    from scout.store import beds

    with context.read() as session:
        site = beds.site(session=session, garden_id=str(context.garden_id))
    return site.latitude if site is not None else None


def set_latitude(context: Context, latitude_deg: float) -> str:
    """Keep the garden's latitude, south negative; return what was kept as a sentence."""
    from scout.store import beds
    from scout.store.tables_garden import Site as StoredSite

    if not -90.0 <= latitude_deg <= 90.0:
        raise BadInput(f"A latitude lies between -90 and 90 degrees, south negative; {latitude_deg:g} does not.")
    with context.read() as session:
        site = beds.site(session=session, garden_id=str(context.garden_id))
    if site is None:
        raise NotFound("There is no garden yet; set one up with 'bedwalk garden new', or open 'bedwalk demo'.")
    with context.write() as tx:
        tx.update(StoredSite, site.id, latitude=latitude_deg)
    return f"Latitude kept: {abs(latitude_deg):g} degrees {'south' if latitude_deg < 0 else 'north'}."


def type_latitude(context: Context, text: str) -> str:
    """Keep a latitude as typed, such as 40 or -33,5; return what was kept."""
    from scout.intake.decimals import read_decimal

    return set_latitude(context, read_decimal(text))


def _know_device(context: Context, known: set[str]) -> None:
    """Give the context this device's id, kept beside the data; a device new to the garden is entered into it."""
    file = paths.device_file(context.root)
    if file.is_file():
        context.device_id = file.read_text(encoding="ascii", errors="replace").strip()
    if context.device_id in known:
        return
    from scout.store.tables_garden import Device

    context.device_id = _kept_device(file, context.new_id())
    with context.write() as tx:
        tx.add(Device, row_id=context.device_id, name="this device")


def _kept_device(file: Path, device_id: str) -> str:
    try:
        file.write_text(device_id, encoding="ascii")
    except OSError as error:
        raise StoreError(
            f"{file}: cannot be written ({error.strerror}); free some room or change its rights."
        ) from None
    return device_id
