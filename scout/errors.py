"""Every error a grower can be shown: one sentence that names what is wrong and the mend."""


class BedwalkError(Exception):
    """An error whose text is one sentence for the grower; `exit_code` 1 means the input was at fault."""

    exit_code = 1


class BadInput(BedwalkError):
    """Something typed or read from a file cannot be right."""


class NotFound(BedwalkError):
    """A bed, planting, crop, symptom or file by that name does not exist."""


class Refused(BedwalkError):
    """The action would harm a plant, a person or a record, so it is not done."""


class KnowledgeError(BedwalkError):
    """A knowledge file is wrong; the text names file, line where known, and key."""


class StoreError(BedwalkError):
    """The grower's file cannot be opened, read or written."""


class PhotoError(BedwalkError):
    """A picture cannot be taken in."""


class MissingExtra(BedwalkError):
    """An optional library is not installed; the text says which line installs it."""


class Stopped(BedwalkError):
    """The grower stopped long work; nothing of it was kept."""

    exit_code = 130
