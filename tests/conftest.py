"""Being here puts this folder on the import path, so tests can say ``from fakes.readings import ...``."""
