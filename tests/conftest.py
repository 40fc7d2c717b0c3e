"""What every test may use."""

import importlib
import os
import warnings
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import hypothesis
import pytest

# Before numpy is loaded, here and in every program a test starts: the matrices are small, and its threads only wait for
# each other where several workers share the processors.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

hypothesis.settings.register_profile("bedwalk", max_examples=40, derandomize=True, deadline=None, database=None)
hypothesis.settings.load_profile("bedwalk")


def _require_or_skip(name: str, module: str) -> ModuleType:
    """Return the module; where it is missing, skip, or fail when BEDWALK_REQUIRE lists the name."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return importlib.import_module(module)
    except ImportError as missing:
        reason = f"{module} is not installed, so what needs {name} was not checked ({missing})"
        if name in os.environ.get("BEDWALK_REQUIRE", "").split(","):
            pytest.fail(f"BEDWALK_REQUIRE names {name}, but {reason}", pytrace=False)
        pytest.skip(reason)


@pytest.fixture(scope="session")
def require_or_skip() -> Callable[[str, str], ModuleType]:
    """Hand out the function above; tests cannot import it, as they are no package."""
    return _require_or_skip


def pytest_xdist_auto_num_workers() -> int:
    """Run one worker a processor: no test waits for long, and each worker collects the whole suite anew."""
    return os.cpu_count() or 1


_LONG_FIRST = ("e2e", "tui", "demo")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Let the workers begin with the folders of the longest files, so that none is left to run alone at the end."""
    if not hasattr(config, "workerinput"):
        return

    def place(item: pytest.Item) -> int:
        folder = item.path.relative_to(Path(__file__).parent).parts[0]
        return _LONG_FIRST.index(folder) if folder in _LONG_FIRST else len(_LONG_FIRST)

    items.sort(key=place)
