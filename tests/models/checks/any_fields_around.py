"""Made-up fields of what is written before and after the work: planning, tests, rain."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

IN = 25_400_000

amounts = st.sampled_from([10**13, 10**14, 10**15])
sands = st.sampled_from(["sand", "grey sand"])
surfaces = st.sampled_from(["G7", "G8"])


def inches(low: int, high: int) -> st.SearchStrategy[int]:
    """Lengths in whole inches, so that limits are met exactly now and then."""
    return st.integers(low, high).map(lambda number: number * IN)


AROUND: dict[str, dict[str, st.SearchStrategy[Any]]] = {
    "local_plane": {"lon_ndeg": st.just(-93 * 10**9), "lat_ndeg": st.just(45 * 10**9)},
    "layout": {"surface_id": surfaces, "crossings": st.integers(0, 9)},
    "outlet": {
        "outlet_id": st.just("O1"),
        "name": st.just("ditch"),
        "what": st.just("ditch"),
        "invert_nm": st.sampled_from([None, 0]),
        "tailwater_nm": st.sampled_from([None, 0, IN]),
        "permission": st.sampled_from(["not_asked", "given"]),
        "permission_until": st.sampled_from([None, "2026-05-04"]),
    },
    "structure": {"structure_id": st.just("MH1"), "what": st.just("manhole")},
    "takeoff_terms": {"swell_permille": st.sampled_from([0, 250])},
    "unit_price": {
        "item": st.just("end caps"),
        "price_cents": st.integers(0, 500),
        "per": st.just("1"),
    },
    "drainage_terms": {
        "surface_id": surfaces,
        "sand_um_per_h": st.just(500_000),
        "roughness_millionths": st.just(10_000),
        "rain_nm": inches(0, 3),
        "rain_min": st.just(60),
    },
    "permanent_point": {"point_id": st.sampled_from(["PP1", "PP2"]), "where": st.just("gatepost")},
    "tie": {
        "tied": st.sampled_from(["collector_outlet", "collector_head"]),
        "collector_id": st.just("C1"),
        "point_id": st.sampled_from(["PP1", "PP2"]),
        "distance_nm": inches(0, 900),
    },
    "sieve_test": {
        "material_id": sands,
        "weights": st.just(
            [{"opening_um": 500, "retained_mg": 90}, {"opening_um": 0, "retained_mg": 10}]
        ),
    },
    "box_weighing": {
        "material_id": sands,
        "volume_pl": st.just(10**13),
        "mass_ug": st.just(15 * 10**9),
    },
    "bulking_test": {
        "material_id": sands,
        "moist_nm": inches(7, 9),
        "flooded_nm": inches(5, 7),
    },
    "rain": {"depth_nm": inches(0, 3), "stopped_ms": st.just(1_777_900_000_000)},
    "surface_seen": {
        "surface_id": surfaces,
        "condition": st.sampled_from(["standing_water", "clear", "playable"]),
        "seen_ms": st.just(1_777_903_600_000),
    },
    "infiltration_test": {
        "surface_id": surfaces,
        "when": st.sampled_from(["before", "after"]),
        "method": st.just("double_ring"),
        "inner_nm": st.just(12 * IN),
        "readings": st.just(
            [{"after_s": 0, "level_nm": 4 * IN}, {"after_s": 600, "level_nm": 3 * IN}]
        ),
    },
    "sand_top_up": {"surface_id": surfaces, "material_id": sands, "volume_pl": amounts},
    "repair": {
        "collector_id": st.just("C1"),
        "done": st.sampled_from(["flushed", "repaired"]),
    },
    "tablet_added": {"code": st.just("7KQ2-01XM-9P3A-TTBA"), "name": st.just("cab")},
    "tablet_revoked": {
        "code": st.just("7KQ2-01XM-9P3A-TTBA"),
        "heads": st.sampled_from([[], [f"7:{'ab' * 32}"]]),
    },
}
