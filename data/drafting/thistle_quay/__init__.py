"""Flat drafting of the label's garments from its body chart; run `python data/drafting/draft.py`."""
