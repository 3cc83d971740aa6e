"""Processor time of another process, as the system tells it."""

import os
import sys
import time

import psutil
import pytest

from boltside.lay import processor_time
from boltside.lay.processor_time import processor_time_s, seconds_of_ps


@pytest.mark.outside
@pytest.mark.parametrize(
    ("said", "seconds"),
    [
        # POSIX.1-2017, ps: "[dd-]hh:mm:ss".
        ("00:00:05", 5.0),
        ("01:02:03", 3723.0),
        ("1-00:00:01", 86401.0),
        # macOS, from memory: minutes without end, and hundredths.
        ("0:01.25", 1.25),
        ("90:00.00", 5400.0),
    ],
)
def test_what_ps_says_is_read(said, seconds):
    assert seconds_of_ps(said) == seconds


@pytest.mark.parametrize("said", ["", "TIME", "1:2:x", "-", "a-00:00:01"])
def test_what_is_no_time_is_none(said):
    assert seconds_of_ps(said) is None


def burn(seconds: float) -> None:
    began = time.process_time()
    while time.process_time() - began < seconds:
        pass


@pytest.mark.outside
@pytest.mark.skipif(sys.platform == "win32", reason="Windows does not tell")
def test_it_is_what_the_library_psutil_says_of_this_process():
    burn(0.3)
    before = sum(psutil.Process().cpu_times()[:2])
    told = processor_time_s(os.getpid())
    after = sum(psutil.Process().cpu_times()[:2])
    assert told is not None
    coarse = 0.011 if sys.platform == "linux" else 1.0
    assert before - coarse <= told <= after + coarse


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no ps")
def test_ps_agrees_where_there_is_one():
    said = seconds_of_ps(processor_time._said_by_ps(os.getpid()))
    if said is None:
        pytest.skip("no ps here")
    assert abs(said - time.process_time()) <= 1.1


def test_a_process_that_is_not_there_has_none():
    assert processor_time_s(2**22 + 1) is None
