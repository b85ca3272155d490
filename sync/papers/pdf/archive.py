"""Metadata of a PDF for archiving, in the form its standard asks for.

The PDF library writes the same facts as attributes and stamps the present time; the standard's
checkers want elements, and the same book must give the same bytes.
"""

from __future__ import annotations

from datetime import datetime
from xml.sax.saxutils import escape

from sync.papers.wording.safe_text import single_line

PART, CONFORMANCE = 1, "B"


def archive_metadata(title: str, subject: str, made: datetime) -> str:
    """Metadata of a document for keeping, of the time it was made from."""
    moment = made.strftime("%Y-%m-%dT%H:%M:%SZ")
    return "\n".join(
        [
            '<x:xmpmeta xmlns:x="adobe:ns:meta/">',
            '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">',
            '<rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">',
            f"<pdfaid:part>{PART}</pdfaid:part>",
            f"<pdfaid:conformance>{CONFORMANCE}</pdfaid:conformance>",
            "</rdf:Description>",
            '<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/">',
            "<dc:format>application/pdf</dc:format>",
            f"<dc:title><rdf:Alt>{_default(title)}</rdf:Alt></dc:title>",
            f"<dc:description><rdf:Alt>{_default(subject)}</rdf:Alt></dc:description>",
            "<dc:creator><rdf:Seq><rdf:li>crewapp</rdf:li></rdf:Seq></dc:creator>",
            "</rdf:Description>",
            '<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/">',
            "<xmp:CreatorTool>crewapp</xmp:CreatorTool>",
            f"<xmp:CreateDate>{moment}</xmp:CreateDate>",
            f"<xmp:ModifyDate>{moment}</xmp:ModifyDate>",
            "</rdf:Description>",
            '<rdf:Description rdf:about="" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">',
            "<pdf:Producer>fpdf2</pdf:Producer>",
            "</rdf:Description>",
            "</rdf:RDF>",
            "</x:xmpmeta>",
        ]
    )


def _default(text: str) -> str:
    """A text in no language in particular, with nothing in it that is markup."""
    return f'<rdf:li xml:lang="x-default">{escape(single_line(text))}</rdf:li>'
