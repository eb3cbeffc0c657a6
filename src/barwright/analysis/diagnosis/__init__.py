"""Why a car sits wrong: causes by their probability, each with the check that confirms it."""
