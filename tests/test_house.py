"""Who may import whom: the floors of the house, kept by reading the source as text.

A plain unittest file: it runs even when the site will not start
(`python -m unittest tests/test_house.py`).
"""

import ast
import sys
import unittest
from collections.abc import Iterator
from pathlib import Path

CHECKOUT = Path(__file__).resolve().parent.parent

# The longest matching prefix says on which floor a module stands.
FLOORS = {
    "alterations": 0,
    "alterations.records": 1,
    "gallery.access": 2,
    "gallery.letters": 2,
    "gallery.jobs": 2,
    "gallery.vault": 2,
    "gallery.logs": 2,
    "gallery.environment": 2,
    "gallery.speaking": 2,
    "gallery.formats": 2,
    "gallery.series": 3,
    "gallery.consent": 3,
    "gallery.contributions": 4,
    "gallery.review": 5,
    "gallery.mailbox": 5,
    "gallery.album": 6,
    "gallery.exhibition": 6,
    "gallery": 7,
}
CABINETS = {  # plain rooms: what they may import besides the standard library
    "alterations": {"alterations"},
    "gallery.album.film": {
        "gallery.album.film",
        "PIL",
        "numpy",
        "cv2",
        "av",
        "font_source_sans_pro",
        "font_source_serif_pro",
    },
    "gallery.contributions.photos": {
        "gallery.contributions.photos",
        "PIL",
        "pillow_heif",
        "numpy",
        "imagehash",
    },
    "gallery.vault": {"gallery.vault"},
}
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "manage.py",
    "gallery",
    "alterations",
    "templates",
    "tests",
    "requirements.txt",
    "pyproject.toml",
}


def sources() -> Iterator[tuple[str, Path]]:
    for room in ("alterations", "gallery"):
        for path in sorted((CHECKOUT / room).rglob("*.py")):
            parts = path.relative_to(CHECKOUT).with_suffix("").parts
            name = ".".join(parts).removesuffix(".__init__")
            if "migrations" not in parts:
                yield name, path


def imports_of(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            yield from (f"{base}.{alias.name}" for alias in node.names)


def room_of(module: str) -> str | None:
    fitting = [room for room in FLOORS if module == room or module.startswith(room + ".")]
    return max(fitting, key=len, default=None)


def places_in(imported: str) -> list[str]:
    """`a.b.c` names a, a.b and a.b.c."""
    parts = imported.split(".")
    return [".".join(parts[:length]) for length in range(1, len(parts) + 1)]


def is_inside(module: str, places: set[str]) -> bool:
    return any(module == place or module.startswith(place + ".") for place in places)


def wrong_direction(importer: str, imported: str) -> bool:
    here, there = room_of(importer), room_of(imported)
    if here is None or there is None or here == there:
        return False
    if FLOORS[there] == 2 == FLOORS[here]:
        return False
    return FLOORS[there] >= FLOORS[here]


class TheHouse(unittest.TestCase):
    def test_imports_point_to_lower_floors(self) -> None:
        wrong = [
            f"{name} imports {imported}"
            for name, path in sources()
            for imported in imports_of(path)
            if wrong_direction(name, imported)
        ]
        self.assertEqual(wrong, [])

    def test_plain_rooms_import_nothing_but_what_they_name(self) -> None:
        wrong = [
            f"{name} imports {imported}"
            for name, path in sources()
            for cabinet, allowed in CABINETS.items()
            if is_inside(name, {cabinet}) and not is_inside(name, {"alterations.records"})
            for imported in imports_of(path)
            if imported.split(".")[0] not in sys.stdlib_module_names
            and not is_inside(imported, allowed)
        ]
        self.assertEqual(wrong, [])

    def test_no_two_modules_import_each_other_in_a_circle(self) -> None:
        modules = dict(sources())
        graph = {
            name: {place for i in imports_of(path) for place in places_in(i) if place in modules}
            for name, path in modules.items()
        }
        packages = {name for name, path in modules.items() if path.name == "__init__.py"}
        self.assertEqual(self.circles(graph, packages), [])

    def circles(self, graph: dict[str, set[str]], packages: set[str]) -> list[str]:
        """Importing `a.b.c` also names the packages a and a.b; only real edges count."""
        done: set[str] = set()
        found: list[str] = []

        def walk(name: str, way: tuple[str, ...]) -> None:
            if name in way:
                found.append(" -> ".join([*way[way.index(name) :], name]))
                return
            if name in done:
                return
            for following in sorted(graph[name] - packages - {name}):
                walk(following, (*way, name))
            done.add(name)

        for name in sorted(graph):
            walk(name, ())
        return found

    def test_there_are_no_signals(self) -> None:
        users = [
            name
            for name, path in sources()
            for imported in imports_of(path)
            if imported.startswith(("django.dispatch", "django.db.models.signals"))
        ]
        self.assertEqual(users, [])

    def test_the_top_level_holds_what_the_owner_fixed(self) -> None:
        shown = {
            p.name
            for p in CHECKOUT.iterdir()
            if not p.name.startswith(".") and p.name != "__pycache__"
        }
        self.assertEqual(shown, TOP_LEVEL)

    def test_no_file_is_longer_than_four_hundred_lines(self) -> None:
        long = [name for name, path in sources() if len(path.read_text().splitlines()) > 400]
        self.assertEqual(long, [])


if __name__ == "__main__":
    unittest.main()
