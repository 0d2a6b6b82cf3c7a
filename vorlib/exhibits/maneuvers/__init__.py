"""Exhibits that fly: homing, intercepting, tracking, reverse sensing."""
