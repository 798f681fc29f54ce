"""Every field that the model declares, for tests that must miss none."""

from explorer.scenario.fields import sections_in
from explorer.scenario.model import Scenario


def all_fields(top=Scenario):
    """Owner and key of every field below a section that is no section itself."""
    found, todo = [], [top]
    for owner in todo:
        for key, info in owner.model_fields.items():
            inner = list(sections_in(info.annotation))
            todo += [one for one in inner if one not in todo]
            if not inner:
                found.append((owner, key))
    return set(found)


def named(fields):
    """Fields as a message names them."""
    return sorted(f"{owner.__name__}.{key}" for owner, key in fields)
