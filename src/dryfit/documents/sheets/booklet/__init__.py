"""The assembly booklet: one picture a step, in the order that the order study found.

maker     a sheet for each page
pages     which pages there are: units, then the piece, then how it is stood up
acts      a step in words; `laying`: what lies first and what waits; `loose`: what goes in and is no board
hovering  a step drawn, what comes in hovering over its place; `lettered`: its letters, placed by the kit
standing_up  the last page
"""
