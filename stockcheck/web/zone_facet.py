"""A facet that counts animals by each layer of the water they use; an animal of two layers counts in both."""

from __future__ import annotations

from typing import Any

from datasette.facets import Facet
from datasette.utils import path_with_added_args, path_with_removed_args

from stockcheck.report.text_catalogue import term

ARGUMENT = "_zone"


class ZoneFacet(Facet):  # type: ignore[misc]
    """Asked for as ``_facet_zone=zone``, or ``{"zone": "zone"}`` in the metadata."""

    type = "zone"

    async def suggest(self) -> list[dict[str, Any]]:
        return []

    async def facet_results(self) -> tuple[list[dict[str, Any]], list[str]]:
        if not self.get_configs():
            return [], []
        counted = await self.ds.execute(
            self.database,
            f"select zone, count(*) from ({self.sql}) group by zone",
            self.params,
            custom_time_limit=self.ds.setting("facet_time_limit_ms"),
        )
        counts: dict[str, int] = {}
        for zones, count in counted.rows:
            for zone in (zones or "").split("|"):
                counts[zone] = counts.get(zone, 0) + count
        found = {
            "name": "zone",
            "type": self.type,
            "hideable": False,
            "toggle_url": "",
            "results": [
                self._value(zone, count)
                for zone, count in sorted(counts.items(), key=lambda item: -item[1])
                if zone
            ],
            "truncated": False,
        }
        return [found], []

    def _value(self, zone: str, count: int) -> dict[str, Any]:
        selected = zone in self.request.args.getlist(ARGUMENT)
        toggle = path_with_removed_args if selected else path_with_added_args
        return {
            "value": zone,
            "label": term("zone", zone),
            "count": count,
            "selected": selected,
            "toggle_url": self.ds.absolute_url(
                self.request, self.ds.urls.path(toggle(self.request, {ARGUMENT: zone}))
            ),
        }
