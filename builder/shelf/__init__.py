"""What is kept from one run to the next, and the hash of all that it was made from."""

from . import sealed
from .digest import digest
from .program import program, schemas_dir
from .shelf import KEPT_FROM, Shelf

__all__ = ["KEPT_FROM", "Shelf", "digest", "program", "schemas_dir", "sealed"]
