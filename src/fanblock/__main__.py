"""Lets ``python -m fanblock`` do what ``fanblock`` does."""

from __future__ import annotations

from fanblock.cli.main import main

if __name__ == "__main__":
    raise SystemExit(main())
