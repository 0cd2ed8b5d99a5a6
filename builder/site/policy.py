"""The content security policy of every built page (W3C, CSP Level 3), as a meta element."""

from __future__ import annotations

import base64
import hashlib
import re

_INLINE = re.compile(r"<script(?P<attributes>[^>]*)>(?P<code>.*?)</script>", re.DOTALL | re.IGNORECASE)
_TYPE = re.compile(r"""\btype\s*=\s*["']?([^"'\s>]*)""", re.IGNORECASE)
_RUNS = ("", "text/javascript", "application/javascript", "module")
_HEAD = re.compile(r"<meta charset=[^>]*>", re.IGNORECASE)


def with_policy(page: str, content: str = "", *, own: bool = False) -> str:
    """The page with a policy that admits its own files and another theme's inline scripts, by hash.

    `content` is the part that is not the theme's: scripts in it get no hash and so never run. With `own`, the
    page stands in our own theme, which has no inline script: none runs, whoever wrote it.
    A page without a declared character set is returned as it is.
    """
    around = page.replace(content, "") if content else page
    policy = meta(() if own else inline_hashes(around))
    return _HEAD.sub(lambda found: found.group() + policy, page, count=1)


def inline_hashes(page: str) -> tuple[str, ...]:
    """Source expressions for the inline scripts that a browser would run, sorted. Data blocks need none."""
    hashes = set()
    for script in _INLINE.finditer(page):
        kind = _TYPE.search(script["attributes"])
        if re.search(r"\bsrc\s*=", script["attributes"], re.IGNORECASE) or (
            kind and kind[1].lower() not in _RUNS
        ):
            continue
        digest = hashlib.sha256(script["code"].encode()).digest()
        hashes.add(f"'sha256-{base64.b64encode(digest).decode()}'")
    return tuple(sorted(hashes))


def meta(hashes: tuple[str, ...]) -> str:
    """What is not named falls under `default-src`: no frame, no object, and nothing from elsewhere.

    `connect-src` lets a page ask its own site alone, as keeping a copy does. A worker answers from that copy;
    themes that search as MkDocs does need one too.
    """
    rules = [
        "default-src 'none'",
        " ".join(("script-src 'self'", *hashes)),
        "style-src 'self'",
        "img-src 'self' data:",
        "font-src 'self'",
        "media-src 'self'",
        "connect-src 'self'",
        "worker-src 'self'",
        "manifest-src 'self'",
        "object-src 'none'",
        "form-action 'none'",
        "base-uri 'none'",
    ]
    return f'<meta http-equiv="Content-Security-Policy" content="{"; ".join(rules)}">'
