terminal-welcome = Type as you would on a phone. To tap a button, type its label. /wait 3 days moves the clock. /quit leaves.
terminal-no_button = There is no button "{ $wanted }" in the latest message.
terminal-no_file = There is no file { $path }.
terminal-clock_fixed = You can't move the clock with real weather. Use --climate simulated or recorded:PATH.
terminal-no_duration = I couldn't read a time to wait in "{ $said }". Weeks, days, hours or minutes, up to { SPAN($days) }. For example: P3D, PT6H, 3 days
terminal-no_json = That line is not JSON. Send one object per line: { "{" }"say": "/soil"{ "}" }
terminal-no_request = One of these a line: { "{" }"say": "..."{ "}" }, { "{" }"tap": "..."{ "}" }, { "{" }"location": [lat, lon]{ "}" }, { "{" }"photo": "path"{ "}" }, { "{" }"file": "path"{ "}" }, { "{" }"wait": "P3D"{ "}" }
terminal-no_place = A place is [latitude, longitude] in degrees: -90 to 90 and -180 to 180.
