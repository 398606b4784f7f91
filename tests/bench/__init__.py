"""Benchmarks: costs as ratios against a baseline measured in the same run. Never part of the tests."""
