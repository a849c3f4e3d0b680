"""How it is carried: what is on the way, unit by unit who lifts it and how it goes through, and each turn in plan.

maker    the sheets: tables, what to mind
turning  a turn seen from above, where there is least room
"""
