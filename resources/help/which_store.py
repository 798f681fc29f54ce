"""Which store lets a plant label live in the dimmest light? A worked example from a script.

Run it as it stands, or cell by cell in a notebook: python which_store.py
"""

# %% Read a design that comes along, and ask about it
import numpy as np

from explorer.scripting import read

label = read("bundled:plant_label")
found = label.assess()
print(f"{label.scenario.title}: {found.verdict}, decided by {found.governing}")
for name, check in found.checks.items():
    print(f"  {name:8} margin {check.margin:6.3g} of {check.wanted:.3g} wanted")

# %% Change values by their path; the design before stays as it is
rarer = label.changed({"load.operations.0.schedule.interval_s": 7200.0})
print(f"Half as often: {rarer.assess().verdict}")

# %% The run, exact at the moments that are asked for
hours = np.arange(0.0, 48.0, 0.25) * 3600.0
run = label.columns(hours)
print(f"After two days the store holds {run['store_V'][-1]:.3f} V")

# %% Where the verdict turns as the light changes, confirmed on both sides
for edge in label.edges("light.illuminance_lx", np.geomspace(10.0, 3000.0, 16)):
    print(f"It runs from {edge.value:g} lx; at {edge.beyond:g} lx it does not")

# %% Which build? Parts as they are sold, each on the front confirmed exactly
front = label.builds(most_parts=3, lithium=False, height_mm=10.0)
for panels, store, price in zip(
    front.table["panels"], front.table["store"], front.table["price"], strict=True
):
    print(f"{price:.2f} (relative): {panels}; {store}")

# %% Many variants at once, as arrays
table = label.sweep(
    {"store.capacitance_F": [0.47, 1.0, 2.2], "light.illuminance_lx": np.geomspace(50, 800, 13)}
)
for farad in np.unique(table["store.capacitance_F"]):
    mine = (table["store.capacitance_F"] == farad) & (table["verdict"] == "runs")
    least = table["light.illuminance_lx"][mine].min(initial=np.inf)
    print(f"{farad:5g} F runs from {least:.0f} lx of those that were tried")
