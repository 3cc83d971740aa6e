"""Make a shop's folder with one small pattern that works: `boltside new`."""
