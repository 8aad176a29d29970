"""Pictures with their tables as one page that needs no network and no script."""

from collections.abc import Sequence
from xml.sax.saxutils import escape

from roundwright.documents.pictures.ink import FONT, HAIR, INK, PAPER, SOFT, Picture, Table
from roundwright.foundation.words import say, speech

STYLE = (
    f"body{{margin:0 auto;max-width:88rem;padding:1.2rem 1rem 3rem;background:{PAPER};color:{INK};"
    f"font:17px/1.42 {FONT}}}h1{{font-size:1.9rem;line-height:1.1;border-bottom:3px solid}}"
    f"figure{{margin:1.6rem 0 .4rem}}svg{{width:100%;height:auto}}p{{color:{SOFT};margin:.2rem 0}}"
    "summary{min-height:48px;display:inline-flex;align-items:center;padding:0 1rem;"
    "color:#0b5257;border:2px solid;font-weight:600;cursor:pointer;margin:.3rem .4rem .3rem 0}"
    "table{border-collapse:collapse;margin:.6rem 0;font-variant-numeric:tabular-nums}"
    f"caption{{text-align:left;font-weight:600;padding:.3rem 0}}"
    f"th,td{{text-align:left;padding:.2rem .9rem .2rem 0;border-bottom:1px solid {HAIR}}}"
    "summary:focus-visible{outline:3px solid #0b5257;outline-offset:3px}"
    f".wide{{overflow-x:auto}}@media print{{body{{background:#fff}}summary{{display:none}}}}"
)


def picture_page(title: str, lines: Sequence[str], pictures: Sequence[Picture]) -> str:
    """Write pictures one below the other, each with its tables behind one press.

    Parameters
    ----------
    title : str
        Which class it is.
    lines : sequence of str
        What stands beneath the title.
    pictures : sequence of Picture
        What is shown. Everything that comes from people's files is escaped.
    """
    told = "".join(f"<p>{escape(words)}</p>" for words in lines)
    shown = "".join(
        f"<figure>{picture.svg}</figure>{''.join(map(_table, picture.tables))}"
        for picture in pictures
    )
    return (
        f'<!doctype html><html lang="{speech().language[:2]}"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width,initial-scale=1">'
        f"<title>{escape(title)}</title><style>{STYLE}</style></head>"
        f"<body><h1>{escape(title)}</h1>{told}{shown}</body></html>\n"
    )


def _table(table: Table) -> str:
    heads = "".join(f'<th scope="col">{escape(head)}</th>' for head in table.heads)
    rows = "".join(
        "<tr>" + "".join(f"<td>{escape(words)}</td>" for words in row) + "</tr>"
        for row in table.rows
    )
    caption, as_table = escape(table.caption), escape(say("As a table"))
    return (
        f'<details><summary>{as_table}: {caption}</summary><div class="wide"><table>'
        f"<caption>{caption}</caption><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody>"
        "</table></div></details>"
    )
