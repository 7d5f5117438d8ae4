"""The page, its JSON and its socket. No arithmetic of the craft lives here."""
