"""Values as YAML, by PyYAML's own writer."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import yaml

from builder.source.yaml_tree import Node


class _Writer(yaml.SafeDumper):
    def ignore_aliases(self, data: Any) -> bool:
        return True


_Writer.add_representer(
    Decimal, lambda dumper, value: dumper.represent_scalar("tag:yaml.org,2002:float", f"{value:f}")
)


def as_yaml(value: Node) -> str:
    return yaml.dump(value, Dumper=_Writer, allow_unicode=True, sort_keys=False)
