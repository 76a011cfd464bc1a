"""Writing a file whole or not at all."""

import os
from pathlib import Path

__all__ = ["write_whole"]


def write_whole(path: str | os.PathLike, content: str | bytes) -> None:
    """Write `content` (text as UTF-8) to `path`, so that a crash leaves the old or the new file.

    Raises OSError when it cannot; then `path` is as it was and nothing is left beside it.

    >>> import tempfile
    >>> folder = tempfile.TemporaryDirectory()
    >>> note = Path(folder.name, "note.txt")
    >>> write_whole(note, "50 g peppermint")
    >>> note.read_text(encoding="utf-8")
    '50 g peppermint'
    >>> folder.cleanup()
    """
    path = Path(path)
    content = content.encode("utf-8") if isinstance(content, str) else content
    beside = path.with_name(f".{path.name}.{os.getpid()}.new")  # same folder: same disk
    try:
        with open(beside, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())  # or a power cut may keep the new name and lose the words
        os.replace(beside, path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
