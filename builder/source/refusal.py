"""What the schema library reports, as far as sentences need it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from jsonschema import ValidationError

from builder.course import Path

from .validators import repeats
from .wanted import shown


@dataclass(frozen=True, slots=True)
class Refusal:
    """One keyword of a schema that a value does not meet."""

    path: Path
    keyword: str
    wanted: Any
    """What the keyword asks for."""
    value: Any
    schema: dict[str, Any]
    is_name: bool
    """True where a key inside the value at the path is refused; the key is then the value."""
    missing: str
    """For `required`: the key that is not there."""

    @classmethod
    def of(cls, error: ValidationError) -> Refusal:
        wanted: Any = error.validator_value
        missing = ""
        if error.validator == "required":
            missing = next(key for key in wanted if error.message.startswith(repr(key)))
        return cls(
            path=tuple(error.absolute_path),
            keyword=str(error.validator),
            wanted=wanted,
            value=error.instance,
            schema=dict(error.schema),  # type: ignore[arg-type]
            is_name="propertyNames" in error.absolute_schema_path,
            missing=missing,
        )

    @property
    def known(self) -> dict[str, Any]:
        """The keys that the part may have, with their schemas."""
        known: dict[str, Any] = self.schema.get("properties", {})
        return known

    @property
    def extra_keys(self) -> list[str]:
        return [key for key in self.value if key not in self.known]

    @property
    def repeated(self) -> int:
        """For `uniqueItems`: the place of the first entry that stands there already."""
        return next(repeats(self.value))

    @property
    def key(self) -> str:
        """The innermost key on the path, list entries passed over; empty where there is none."""
        return next((key for key in reversed(self.path) if isinstance(key, str)), "")

    @property
    def title(self) -> str:
        """What the schema calls the part; a part without a title is called by its key."""
        title: str = self.schema.get("title", "")
        return title[:1].lower() + title[1:] if title else f"`{shown(self.key)}`"

    @property
    def a_title(self) -> str:
        """The title with its article."""
        title = self.title
        if title.startswith("`"):
            return title
        return f"{'an' if title[0] in 'aeio' else 'a'} {title}"

    @property
    def description(self) -> str:
        return str(self.schema.get("description", ""))
