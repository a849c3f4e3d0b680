"""TOML texts made from drawn values by a writer that uses every form TOML has for them.

Four kinds of strings, dotted keys, tables in braces, lists over several lines, notes, blank lines, and both
kinds of line ends.
"""

import json
import tomllib

from hypothesis import strategies as st

NAMES = st.sampled_from(["a", "b", "name", "A-1", "two words", "dot.ted", "é", "", '"quoted"', "7", "true"])
PRINTABLE = st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=8)


def strings():
    basic = st.text(st.characters(exclude_categories=("Cs",)), max_size=8).map(
        lambda text: json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
    )
    literal = PRINTABLE.filter(lambda text: "'" not in text).map(lambda text: f"'{text}'")
    long_basic = PRINTABLE.map(
        lambda text: '"""\n' + text.replace("\\", "\\\\").replace('"', '\\"') + '\n[x]\n#"y" """'
    )
    long_literal = PRINTABLE.filter(lambda text: "'" not in text).map(lambda text: f"'''{text}\n''a = 1'''")
    return st.one_of(basic, literal, long_basic, long_literal, st.just('""""""'), st.just('"""a"""""'))


def scalars():
    other = ["0", "-1", "1_000", "0x1F", "1.5", "-2e3", "inf", "true", "false"]
    times = ["2026-05-04", "2026-05-04T07:32:00Z", "2026-05-04 07:32:00", "07:32:00"]
    return st.one_of(strings(), st.sampled_from(other + times))


def values():
    def grown(inner):
        lists = st.lists(inner, max_size=3).map(lambda parts: f"[{', '.join(parts)}]")
        tall = st.lists(inner, min_size=1, max_size=3).map(
            lambda parts: "[\n" + "".join(f"  {part},  # ] note\n" for part in parts) + "]"
        )
        flat = inner.filter(lambda text: "\n" not in text or text.startswith(('"""', "'''")))
        braces = st.dictionaries(NAMES, flat, max_size=3).map(
            lambda table: "{" + ", ".join(f"{key(name)} = {part}" for name, part in table.items()) + "}"
        )
        return st.one_of(lists, tall, braces)

    return st.recursive(scalars(), grown, max_leaves=6)


def key(name):
    bare = name.isascii() and name.replace("-", "").isalnum()
    return name if bare else json.dumps(name, ensure_ascii=False)


@st.composite
def texts(draw):
    """A TOML text that tomllib reads."""
    lines = []
    for name, value in draw(st.dictionaries(NAMES, values(), max_size=3)).items():
        lines.append(f"{key(name)}={value} # note")
    for number in range(draw(st.integers(0, 3))):
        header = f"t{number}.{key(draw(NAMES))}"
        rows = draw(st.integers(0, 2))
        if rows == 0:
            lines += ["", f"[{header}]"]
            lines += body(draw)
        for _ in range(rows):
            lines += [f"[[{header}]]  # a row", *body(draw)]
            if draw(st.booleans()):
                lines += [f"[ {header} . inner ]", *body(draw)]
    newline = draw(st.sampled_from(["\n", "\r\n"]))
    return newline.join(lines) + draw(st.sampled_from(["", newline]))


def body(draw):
    lines = []
    for name, value in draw(st.dictionaries(NAMES, values(), max_size=3)).items():
        dotted = draw(st.sampled_from([key(name), f"d.{key(name)}", f"d . e . {key(name)}"]))
        lines.append(f"  {dotted}   = {value}")
    return lines


def readable(text):
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return False
    return True


def at(data, path):
    for step in path:
        data = data[step]
    return data
