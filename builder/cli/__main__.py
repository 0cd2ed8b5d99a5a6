"""`python -m builder.cli` is the `casetrue` command."""

from .main import main

main()
