"""What the environment says: the few settings a server keeper may change."""

import os
import secrets
from collections.abc import Sequence
from pathlib import Path

CHECKOUT = Path(__file__).resolve().parent.parent


def text(name: str, default: str = "") -> str:
    """The setting `name`, or `default` where it is missing or empty."""
    return os.environ.get(name, "").strip() or default


def is_on(name: str) -> bool:
    """Whether the setting says yes (1, true, yes, on)."""
    return text(name).lower() in {"1", "true", "yes", "on"}


def number(name: str, default: int) -> int:
    """The whole number the setting holds.

    Raises ValueError with the setting's name where it is no number.
    """
    try:
        return int(text(name, str(default)))
    except ValueError as error:
        raise ValueError(f"{name} must be a whole number, for example {default}.") from error


def choice(name: str, allowed: Sequence[str]) -> str:
    """One of the allowed values, the first where the setting is not there.

    Raises ValueError with the setting's name where it is another one.
    """
    chosen = text(name, allowed[0])
    if chosen not in allowed:
        raise ValueError(f"{name} must be one of {', '.join(allowed)}, not {chosen}.")
    return chosen


def data_folder() -> Path:
    """Where database, pictures and films lie; made where it is missing, closed to others."""
    folder = Path(text("GALLERY_DATA_DIR", str(CHECKOUT / ".data"))).resolve()
    try:
        folder.mkdir(mode=0o750, parents=True, exist_ok=True)
    except OSError as error:
        raise SystemExit(
            f"The data folder {folder} cannot be made ({error.strerror}). "
            "Name another one in GALLERY_DATA_DIR."
        ) from error
    return folder


def secret_key(folder: Path) -> str:
    """The signing key: from GALLERY_SECRET_KEY, else kept in a file only its owner reads."""
    given = text("GALLERY_SECRET_KEY")
    return given or _kept_key(folder / "secret_key")


def _kept_key(path: Path) -> str:
    if not path.exists():
        # Exclusive creation: of two processes starting together one writes, the other reads.
        try:
            descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        except FileExistsError:
            return path.read_text(encoding="ascii")
        with os.fdopen(descriptor, "w", encoding="ascii") as file:
            file.write(secrets.token_urlsafe(64))
    return path.read_text(encoding="ascii")
