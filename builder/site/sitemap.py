"""The site map after sitemaps.org 0.9, without dates, so that it changes with the site alone."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from urllib.parse import quote, urljoin


def sitemap(site_url: str, addresses: Iterable[str]) -> str:
    start = site_url if site_url.endswith("/") else site_url + "/"
    entries = "".join(
        f"<url><loc>{escape(urljoin(start, quote(uri)), quote=False)}</loc></url>\n" for uri in addresses
    )
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n{entries}</urlset>\n'
    )
