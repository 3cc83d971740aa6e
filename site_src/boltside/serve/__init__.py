"""Show the shop on this computer while a designer works on it: `boltside serve`."""
