"""What every sheet is laid out with, whatever it shows. Lengths in mm on paper.

frame      the room on a sheet, its heading, title block, and STOP where it is due
table      tables whose every word can be read
prose      short paragraphs with bold words and blanks, from place to place
sheaf      tables and paragraphs that run over as many sheets as they need
arranging  small drawings side by side in rows, their words under them
picture    the piece seen from the room, to scale, and small with one part black
"""
