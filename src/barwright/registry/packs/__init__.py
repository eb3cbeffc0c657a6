"""From a pack's tables to records: format versions, checks that a pack carries, stores."""
