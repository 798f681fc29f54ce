"""The demonstrations as the program saves them, after a change of the fields.

    python -m tests.resave
"""

from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.resource_files import scenario_folder


def main() -> None:
    """Read and write each of them."""
    for path in sorted(scenario_folder().rglob("*.json")):
        save_scenario(path, load_scenario(path).scenario)


if __name__ == "__main__":
    main()
