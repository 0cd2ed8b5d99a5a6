"""A file of MkDocs that is made when it is written, so that not all of them are in memory at once."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from mkdocs.structure.files import File

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig


class WrittenLate(File):
    """A generated file whose text is made on the way to the disk."""

    def __init__(self, config: MkDocsConfig, uri: str, make: Callable[[], str] | None = None) -> None:
        super().__init__(uri, src_dir=None, dest_dir=config.site_dir, use_directory_urls=False)
        self.generated_by = "casetrue"
        self.make: Callable[[], str] = make or str
        """Set before anything is written; lessons may be read, and link here, before it is known."""

    def copy_file(self, dirty: bool = False) -> None:
        path, made = Path(self.abs_dest_path), self.make().encode()
        try:
            path.write_bytes(made)
        except FileNotFoundError:  # the first in its folder
            path.parent.mkdir(parents=True)
            path.write_bytes(made)

    def is_modified(self) -> bool:
        return True
