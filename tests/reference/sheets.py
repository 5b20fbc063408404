"""Reads the structure of printed sheets with pypdf, point by point as PDF/UA-1
(ISO 14289-1) asks for it.

The only argument is a folder of sheets, as the example `sheets` of
`foldwright-print` writes them. It ends with an error where a sheet lacks its
title, its language or its list of headings; where something drawn is neither in
the tree of structure, once, nor marked as of no meaning; where headings skip a
level, a drawing has no words or no place, a table no heads or rows of different
lengths; or where a typeface is not embedded, or not with what its glyphs mean.
"""

import sys
from pathlib import Path

from pypdf import PdfReader
from pypdf.generic import ContentStream

KNOWN = {
    "/Document", "/H1", "/H2", "/H3", "/P", "/Figure", "/Caption", "/Table",
    "/TR", "/TH", "/TD", "/Div",
}
DRAWS = {b"f", b"f*", b"S", b"B", b"B*", b"s", b"b", b"Tj", b"TJ", b"Do", b"sh"}


def children(element):
    """What is in an element: other elements, and what is drawn by its number."""
    inside = element.get("/K", [])
    inside = inside.get_object() if hasattr(inside, "get_object") else inside
    if not isinstance(inside, list):
        inside = [inside]
    return [it.get_object() if hasattr(it, "get_object") else it for it in inside]


class Walk:
    """All elements of a sheet in the order they are read."""

    def __init__(self, pages):
        self.pages = pages
        self.elements = []
        self.drawn = []

    def down(self, element, page):
        page = self.pages.get(id_of(element.get("/Pg")), page)
        kind = element["/S"]
        self.elements.append((kind, element))
        for child in children(element):
            if isinstance(child, dict) and "/S" in child:
                self.down(child, page)
            elif isinstance(child, dict):
                of = self.pages.get(id_of(child.get("/Pg")), page)
                self.drawn.append((of, int(child["/MCID"])))
            else:
                self.drawn.append((page, int(child)))


def id_of(reference):
    """What tells a page from others."""
    raw = getattr(reference, "indirect_reference", reference)
    return getattr(raw, "idnum", None)


def marked(reader, page, number, found):
    """What is drawn on a page by its numbers; says what is not marked at all."""
    stream = ContentStream(page.get_contents(), reader)
    numbers, within = [], []
    for operands, operator in stream.operations:
        if operator in (b"BDC", b"BMC"):
            tag = operands[0]
            properties = operands[1] if len(operands) > 1 else {}
            within.append(tag)
            if tag != "/Artifact":
                numbers.append((number, int(properties["/MCID"])))
        elif operator == b"EMC":
            within.pop()
        elif operator in DRAWS and not within:
            found.append(f"page {number + 1} draws {operator} unmarked")
    return numbers


def check_fonts(page, found):
    """Each typeface is a part of its file, with the characters of its glyphs."""
    for font in page["/Resources"].get("/Font", {}).values():
        font = font.get_object()
        inner = font["/DescendantFonts"][0].get_object()
        descriptor = inner["/FontDescriptor"].get_object()
        if not any(f"/FontFile{end}" in descriptor for end in ("", "2", "3")):
            found.append(f"{font['/BaseFont']} is not embedded")
        if "+" not in font["/BaseFont"]:
            found.append(f"{font['/BaseFont']} is not cut down")
        if "/ToUnicode" not in font:
            found.append(f"{font['/BaseFont']} does not say what it writes")


def check_tree(elements, found):
    """Headings, drawings and tables."""
    level = 0
    for kind, element in elements:
        if kind not in KNOWN:
            found.append(f"{kind} is no kind of ours")
        if kind[1:2] == "H" and kind != "/H":
            now = int(kind[2:])
            if now > level + 1:
                found.append(f"{kind} follows a heading of level {level}")
            level = now
            if not element.get("/T"):
                found.append(f"{kind} has no title")
        if kind == "/Figure":
            place = attributes(element).get("/BBox")
            if not str(element.get("/Alt", "")).strip():
                found.append("a drawing without words")
            if place is None or float(place[2]) <= float(place[0]):
                found.append("a drawing without a place")
        if kind == "/Table":
            check_table(element, found)
    if [kind for kind, _ in elements].count("/H1") != 1:
        found.append("not one title")


def check_table(table, found):
    """Rows of one length, the first of heads, the others led by one."""
    rows = [row for row in children(table) if row["/S"] == "/TR"]
    lengths = {len(children(row)) for row in rows}
    if len(rows) < 2 or len(lengths) != 1:
        found.append(f"a table of {len(rows)} rows of {lengths} cells")
    for number, row in enumerate(rows):
        for place, cell in enumerate(children(row)):
            scope = attributes(cell).get("/Scope")
            due = "/Column" if number == 0 else "/Row" if place == 0 else None
            if scope != due or (cell["/S"] == "/TH") != (due is not None):
                found.append(f"cell {place} of row {number} is {cell['/S']} {scope}")


def attributes(element):
    """All attributes of an element."""
    of = element.get("/A", {})
    of = of.get_object() if hasattr(of, "get_object") else of
    merged = {}
    for one in of if isinstance(of, list) else [of]:
        merged.update(one.get_object() if hasattr(one, "get_object") else one)
    return merged


def check(file, least=4):
    """What is wrong with a sheet, which has so many headings at least."""
    reader, found = PdfReader(file), []
    root = reader.trailer["/Root"]
    language = "de" if "-de-" in file.name else "en"
    if root.get("/Lang") != language:
        found.append(f"its language is {root.get('/Lang')}")
    if not root["/MarkInfo"].get("/Marked"):
        found.append("it is not tagged")
    if not root["/ViewerPreferences"].get("/DisplayDocTitle"):
        found.append("its title is not shown")
    if not str(reader.metadata.title or "").strip():
        found.append("it has no title")
    if b"pdfuaid:part" not in root["/Metadata"].get_object().get_data():
        found.append("it does not say that it is PDF/UA")
    if len(reader.outline) < least:
        found.append("its headings are not listed")
    pages = {page.indirect_reference.idnum: number for number, page in enumerate(reader.pages)}
    walk = Walk(pages)
    for element in children(root["/StructTreeRoot"]):
        walk.down(element, None)
    check_tree(walk.elements, found)
    drawn = []
    for number, page in enumerate(reader.pages):
        drawn += marked(reader, page, number, found)
        check_fonts(page, found)
        if page.get("/Tabs") != "/S":
            found.append(f"page {number + 1} is not gone through as it is built")
    if sorted(drawn) != sorted(walk.drawn):
        found.append(f"{len(set(drawn) ^ set(walk.drawn))} are drawn or read, not both once")
    return found


def main():
    files = sorted(Path(sys.argv[1]).glob("*.pdf"))
    wrong = [(file.name, found) for file in files for found in check(file)]
    for file, found in wrong:
        print(f"{file}: {found}")
    print(f"{len(files)} sheets, {len(wrong)} faults")
    sys.exit(bool(wrong) or len(files) < 100)


if __name__ == "__main__":
    main()
