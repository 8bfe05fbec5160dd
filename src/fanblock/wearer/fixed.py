"""A mapping that never changes: it can be hashed, compared, and sent to another process."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeVar

Value = TypeVar("Value")


class Fixed(Mapping[str, Value]):
    """Names and values in name order; equal to any mapping that holds the same.

    >>> Fixed({"waist": 1, "bust": 2})
    Fixed({'bust': 2, 'waist': 1})
    """

    __slots__ = ("_values",)
    _values: dict[str, Value]

    def __init__(self, values: Mapping[str, Value] | Iterable[tuple[str, Value]] = ()) -> None:
        object.__setattr__(self, "_values", dict(sorted(dict(values).items(), key=lambda item: item[0])))

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{type(self).__name__} does not change")

    def __getitem__(self, name: str) -> Value:
        return self._values[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)

    def __hash__(self) -> int:
        return hash(tuple(self._values.items()))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self._values!r})"

    def __reduce__(self) -> tuple[type[Fixed[Value]], tuple[dict[str, Value]]]:
        return type(self), (self._values,)
