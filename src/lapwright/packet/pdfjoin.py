"""Several PDFs bound into one, with a small drawing laid over each page.

Holds for the files that the typesetter writes for PDF 1.4 and for nothing else: objects one after another, each with
number 0 after its own, a plain table of their places, no encryption, no links from page to page.  Streams are copied
as they stand; only the numbers in the dictionaries before them change.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

PLACES = re.compile(rb"startxref\s+(\d+)\s+%%EOF\s*$")
REFERENCE = re.compile(rb"\b(\d+) 0 R\b")
BOX = re.compile(rb"/MediaBox\s*\[([^\]]*)\]")
FORM = b"/Lapnumber"


@dataclass(frozen=True, slots=True)
class Book:
    """A PDF taken apart: objects by number, the number of its catalogue, of its page tree, and of its pages in order.

    info: the number of its title and dates; mark: its identity, as it stands in the file.
    """

    objects: dict[int, bytes]
    catalogue: int
    tree: int
    pages: tuple[int, ...]
    info: int
    mark: bytes


def read_book(data: bytes) -> Book:
    """A PDF taken apart.

    Raises: ValueError where the file is not one of the kind that this module is for.
    """
    at = PLACES.search(data)
    table = data[int(at.group(1)) :] if at else b""
    head = re.match(rb"xref\s+0 (\d+)\s+", table)
    trailer = table.partition(b"trailer")[2]
    if head is None or b"/Encrypt" in trailer:
        raise ValueError("not a PDF with a plain table of its objects")
    starts = [int(row[:10]) for row in re.findall(rb"\d{10} \d{5} n", table)]
    ends = [*sorted(starts)[1:], int(at.group(1)) if at else 0]
    end_of = dict(zip(sorted(starts), ends, strict=True))
    objects = {}
    for start in starts:
        number, _, body = data[start : end_of[start]].partition(b" 0 obj")
        objects[int(number)] = body[: body.rindex(b"endobj")].strip()
    catalogue = target(trailer, b"/Root")
    tree = target(objects[catalogue], b"/Pages")
    mark = re.search(rb"/ID\s*(\[.*?\])\s*>>", trailer, re.DOTALL)
    return Book(
        objects, catalogue, tree, leaves(objects, tree), target(trailer, b"/Info"), mark.group(1) if mark else b"[]"
    )


def target(dictionary: bytes, key: bytes) -> int:
    """The object that a key of a dictionary points to."""
    found = re.search(key + rb"\s+(\d+) 0 R", dictionary)
    if found is None:
        raise ValueError(f"no {key.decode()} in the PDF")
    return int(found.group(1))


def leaves(objects: dict[int, bytes], tree: int) -> tuple[int, ...]:
    """The pages under a page tree, in order."""
    kids = re.search(rb"/Kids\s*\[([^\]]*)\]", objects[tree])
    if kids is None:
        return (tree,)
    return tuple(page for kid in REFERENCE.findall(kids.group(1)) for page in leaves(objects, int(kid)))


def page_sizes(book: Book) -> tuple[tuple[float, float], ...]:
    """Width and height of each page [pt]."""
    found = []
    for page in book.pages:
        box = BOX.search(book.objects[page])
        left, low, right, high = map(float, box.group(1).split()) if box else (0.0, 0.0, 0.0, 0.0)
        found.append((right - left, high - low))
    return tuple(found)


def bind(books: Sequence[Book], over: Book) -> bytes:
    """The books one after another, with the pages of `over` laid on theirs, as one PDF.

    Title and dates are those of the first book.
    Raises: ValueError where `over` has another number of pages than the books.
    """
    if len(over.pages) != sum(len(book.pages) for book in books):
        raise ValueError("not one drawing for each page")
    objects: dict[int, bytes] = {}
    shifts = []
    for book in (*books, over):
        shifts.append(max(objects, default=0))
        objects.update({number + shifts[-1]: shifted(body, shifts[-1]) for number, body in book.objects.items()})
    last = shifts.pop()
    pages = [page + shift for book, shift in zip(books, shifts, strict=True) for page in book.pages]
    before = add(objects, stream(b"", b"q\n"))
    for page, drawing in zip(pages, over.pages, strict=True):
        lay(objects, page, drawing + last, before)
    tree = max(objects) + 1
    for page in pages:
        objects[page] = re.sub(rb"/Parent \d+ 0 R", b"/Parent %d 0 R" % tree, objects[page])
    kids = b" ".join(b"%d 0 R" % page for page in pages)
    objects[tree] = b"<</Type/Pages/Count %d/Kids[%s]>>" % (len(pages), kids)
    first = books[0]
    objects[first.catalogue] = re.sub(rb"/Pages \d+ 0 R", b"/Pages %d 0 R" % tree, objects[first.catalogue])
    return written(objects, b"/Root %d 0 R/Info %d 0 R/ID%s" % (first.catalogue, first.info, first.mark))


def shifted(body: bytes, by: int) -> bytes:
    """An object whose pointers count `by` higher; what stands in its stream is left alone."""
    head, begins, rest = body.partition(b"stream")
    return REFERENCE.sub(lambda found: b"%d 0 R" % (int(found.group(1)) + by), head) + begins + rest


def lay(objects: dict[int, bytes], page: int, drawing: int, before: int) -> None:
    """Lay another page's contents over a page: as a form of its own, so that names of fonts do not meet.

    before: the stream that saves how the page is drawn before its own contents change it.
    """
    box = BOX.search(objects[drawing])
    contents, dictionary = target(objects[drawing], b"/Contents"), target(objects[drawing], b"/Resources")
    head, _, body = objects[contents].partition(b"stream")
    rest = head.strip().removeprefix(b"<<")
    objects[contents] = (
        b"<</Type/XObject/Subtype/Form/BBox[%s]/Resources %d 0 R" % (box.group(1) if box else b"", dictionary)
        + rest
        + b"\nstream"
        + body
    )
    after = add(objects, stream(b"", b"\nQ\nq " + FORM + b" Do Q\n"))
    own = target(objects[page], b"/Contents")
    objects[page] = objects[page].replace(
        b"/Contents %d 0 R" % own, b"/Contents[%d 0 R %d 0 R %d 0 R]" % (before, own, after)
    )
    objects[page] = with_form(objects, objects[page], contents)


def with_form(objects: dict[int, bytes], page: bytes, form: int) -> bytes:
    """A page that knows one more form, in a dictionary of its own."""
    known = target(page, b"/Resources")
    body, entry = objects[known], FORM + b" %d 0 R" % form
    if b"/XObject<<" in body:
        body = body.replace(b"/XObject<<", b"/XObject<<" + entry, 1)
    else:
        body = body[: body.rindex(b">>")] + b"/XObject<<" + entry + b">>>>"
    return page.replace(b"/Resources %d 0 R" % known, b"/Resources %d 0 R" % add(objects, body))


def stream(dictionary: bytes, content: bytes) -> bytes:
    """A stream object."""
    return b"<<%s/Length %d>>\nstream\n%s\nendstream" % (dictionary, len(content), content)


def add(objects: dict[int, bytes], body: bytes) -> int:
    """One more object; its number."""
    number = len(objects) + 1
    objects[number] = body
    return number


def written(objects: dict[int, bytes], trailer: bytes) -> bytes:
    """The file: objects by number, the table of their places, the trailer."""
    parts, places, at = [b"%PDF-1.4\n%\x80\x80\x80\x80\n"], [], 0
    for number in sorted(objects):
        at += len(parts[-1])
        places.append(at)
        parts.append(b"%d 0 obj\n%s\nendobj\n" % (number, objects[number]))
    at += len(parts[-1])
    rows = b"".join(b"%010d 00000 n \n" % place for place in places)
    parts.append(b"xref\n0 %d\n0000000000 65535 f \n%s" % (len(places) + 1, rows))
    parts.append(b"trailer\n<</Size %d%s>>\nstartxref\n%d\n%%%%EOF\n" % (len(places) + 1, trailer, at))
    return b"".join(parts)
