"""Tests of the greedy plan and of packing the relaxed one."""
