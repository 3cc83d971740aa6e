"""The guide on paper: the set and size that somebody sews, as a document to print."""
