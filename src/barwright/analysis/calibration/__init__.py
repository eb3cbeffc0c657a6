"""The spring that a corner really has, from several readings of how it stands."""
