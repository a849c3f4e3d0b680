"""Finding a thing of the trade by what a maker calls it.

"oak, European" and "European oak" are one; case and hyphens do not matter; a word that fits only one thing
finds it. What fits several, or none, is given back with the candidates: a guess would put wrong figures
on paper.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Generic, Protocol, TypeVar

MOST_CANDIDATES = 6
MOST_EXAMPLES = 3
MANUAL = "docs/trade-names.md"  # the page of the manual with every name


class Named(Protocol):
    """Something with an id, a name, and other names."""

    @property
    def id(self) -> str:
        """As in the data files."""

    @property
    def name(self) -> str:
        """As printed."""

    @property
    def also(self) -> tuple[str, ...]:
        """What else it is called."""


NamedT = TypeVar("NamedT", bound=Named)


@dataclass(frozen=True, slots=True, kw_only=True)
class Match(Generic[NamedT]):
    """What was found for a word.

    Attributes:
        word: as the maker wrote it.
        found: the one thing it names; None if it fits several or none.
        candidates: what it may have meant, where nothing was found; may be empty.
        examples: of names there are, where nothing is near it.
        several: True if the word fits each of the candidates, False if they are only near it.
    """

    word: str
    found: NamedT | None = None
    candidates: tuple[NamedT, ...] = ()
    examples: tuple[NamedT, ...] = ()
    several: bool = False

    @property
    def says(self) -> str:
        """What is wrong, as a finding says it; empty if something was found."""
        if self.found is not None:
            return ""
        if self.several:
            return f'no figures for "{self.word}": it fits {_listed(self.candidates, "and")}'
        return f'no figures for "{self.word}": the tables have nothing by that name'

    @property
    def remedy(self) -> str:
        """What to write instead; empty if something was found."""
        if self.found is not None:
            return ""
        if self.candidates:
            return f"write {_listed(self.candidates, 'or')}"
        such = f", such as {_listed(self.examples, 'or')}" if self.examples else ""
        return f"use a known name{such}: {MANUAL} lists them all"


def find(word: str, things: Iterable[NamedT]) -> Match[NamedT]:
    """Find the one thing that a word names; see the module's text for what counts as the same."""
    known = tuple(things)
    asked = _words(word)
    if not asked:
        return Match(word=word, examples=known[:MOST_EXAMPLES])
    exact = tuple(thing for thing in known if any(asked == _words(name) for name in _names(thing)))
    fitting = exact or tuple(thing for thing in known if asked <= _words(" ".join(_names(thing))))
    if len(fitting) == 1:
        return Match(word=word, found=fitting[0])
    if fitting:
        return Match(word=word, candidates=fitting[:MOST_CANDIDATES], several=True)
    return Match(word=word, candidates=_near(asked, known), examples=known[:MOST_EXAMPLES])


def _near(asked: frozenset[str], known: tuple[NamedT, ...]) -> tuple[NamedT, ...]:
    """Things with a word that is nearly one of those asked for, those with most such words first."""
    words = {thing.id: _words(" ".join(_names(thing))) for thing in known}
    every = sorted(frozenset().union(*words.values()))
    close = {near for word in asked for near in get_close_matches(word, every, n=3, cutoff=0.75)}
    hits = {thing.id: len(words[thing.id] & close) for thing in known}
    most = max(hits.values(), default=0)
    return tuple(thing for thing in known if most and hits[thing.id] == most)[:MOST_CANDIDATES]


def _names(thing: Named) -> tuple[str, ...]:
    return (thing.id, thing.name, *thing.also)


def _words(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"[^\W_]+", text.casefold()))


def _listed(things: tuple[NamedT, ...], last: str) -> str:
    *before, final = (f'"{thing.name}"' for thing in things)
    return f"{', '.join(before)} {last} {final}" if before else final


def spoken(name: str, noun: str = "") -> str:
    """A name as it is said: "oak, white" is white oak; with the noun behind it, unless the name has that in it.

    >>> spoken("varnish, polyurethane"), spoken("PVA, D3", "glue"), spoken("Hide glue", "glue")
    ('polyurethane varnish', 'D3 PVA glue', 'Hide glue')
    """
    words = name.split(", ")
    said = f"{words[1]} {words[0]}" if len(words) == 2 else name
    return said if not noun or noun in _words(name) else f"{said} {noun}"


def also(text: str) -> tuple[str, ...]:
    """Other names as the data files hold them: with semicolons between."""
    return tuple(name.strip() for name in text.split(";") if name.strip())
