"""What every table of a knowledge file shares: no unknown keys, nothing changes, ids and texts of one shape."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

Id = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)?$", max_length=60)]
Text = Annotated[str, Field(min_length=2, max_length=600)]
Span = tuple[Annotated[float, Field(ge=0)], Annotated[float, Field(ge=0)]]


class Strict(BaseModel):
    """A file's table: unknown keys are refused and nothing changes after loading.

    What checks a table is built when it is first used: a start reads the compiled copy with one for all of them.
    """

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)
