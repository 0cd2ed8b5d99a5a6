"""What lets a learner keep the whole course on a device; the list of its files is written last of all."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from builder.answers import addresses

from ..assets import script
from ..offline import icon, manifest
from ..page import Asset, Made
from ..site import Site


def pages(site: Site) -> Iterator[Made]:
    yield Asset(addresses.MANIFEST, partial(manifest, site))
    yield Asset(addresses.ICON, icon)
    yield Asset(addresses.KEEP_SCRIPT, partial(script, "keep"))
    yield Asset(addresses.WORKER, partial(script, "worker"))


def block(site: Site) -> dict[str, str] | None:
    """What the home page hands to its script; None while the site is served from its sources."""
    if site.is_served:
        return None
    return {"worker": addresses.WORKER, "offline": addresses.OFFLINE, "files": addresses.OFFLINE_FILES}
