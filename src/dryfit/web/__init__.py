"""The page's server: one job, seen and changed live in a browser on the same machine.

`server.create_app` puts the rooms' answers behind HTTP; `session.Session` holds the one job; everything a
browser may send is in `requests`, everything it gets back in `answers`.
"""
