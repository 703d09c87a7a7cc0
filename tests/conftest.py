"""Its place puts this folder on the import path: ``from fakes.readings import fake_readings``."""
