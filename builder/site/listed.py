"""Of the files that MkDocs found, those on the course's own list: MkDocs would follow any link."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig


def keep_listed(files: Files, listed: Mapping[str, Path], course: Path, config: MkDocsConfig) -> None:
    """Takes out what is not `listed`: files below lessons/ by their name in the course folder. A name is the
    same on every machine, however its file system spells it.

    Raises PluginError where MkDocs was sent to another folder than the course's lessons.
    """
    folder = Path(config.docs_dir).resolve()
    if listed and folder != (course / "lessons").resolve():
        raise PluginError(
            f"`docs_dir` in mkdocs.yml leads to {folder}, but lessons are read from the course's folder "
            "lessons/ alone. Write `docs_dir: lessons`."
        )
    names = {path: name.removeprefix("lessons/") for name, path in listed.items()}
    for file in [one for one in files if one.src_dir == config.docs_dir and not one.generated_by]:
        path = folder / file.src_uri
        name = names.get(path)
        if name != file.src_uri:
            files.remove(file)
        if name is not None and name != file.src_uri:
            named = File(name, config.docs_dir, config.site_dir, config.use_directory_urls)
            named.abs_src_path = str(path)
            files.append(named)
