"""The version of this program, kept where reading it costs nothing."""

from __future__ import annotations

__version__ = "0.1.0"
"""The same number as in ``pyproject.toml``."""
