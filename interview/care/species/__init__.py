"""What is known of each kind of turtle: profiles read from profiles/*.yaml, in SI."""

from interview.care.species.catalogue import (
    captive_growth,
    own_or_usual,
    plastron_to_carapace,
    read_profiles,
    species_ids,
    uv_zone,
    welfare_groups,
)
from interview.care.species.names import (
    UnknownSpecies,
    loose_names,
    plain_name,
    profile,
    species_names,
)
from interview.care.species.profile import Fact, GrowthCurve, MassLaw, Profile, Trait, UvZone

__all__ = [
    "Fact",
    "GrowthCurve",
    "MassLaw",
    "Profile",
    "Trait",
    "UnknownSpecies",
    "UvZone",
    "captive_growth",
    "loose_names",
    "own_or_usual",
    "plain_name",
    "plastron_to_carapace",
    "profile",
    "read_profiles",
    "species_ids",
    "species_names",
    "uv_zone",
    "welfare_groups",
]
