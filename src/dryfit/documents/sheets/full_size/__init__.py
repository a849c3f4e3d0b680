"""What is printed at full size, to be laid on the wood: strips along edges, templates, paper angles.

paper      the sheet of paper: what printers leave white, the two bars that show how it was printed, what stands where
window     a stretch of one surface at 1:1, with flaps to fold over its arrises
strips     along an edge: every mark with its running figure; a long one in tiles with register crosses
templates  of raked slots, on both faces; of bevelled ends, on both edges
drilling   of holes in faces and ends
corners    of key pockets, folded round the arris of a glued corner
angles     each lean and bevel of the job, with rays to set a bevel to

Printers stretch paper: a print carries the true figures, and where it does not agree with them they are right.
"""
