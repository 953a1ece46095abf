terminal-welcome = Talk as you would on a phone. /wait 3 days moves the clock, /quit leaves. A button is tapped by typing what it says.
terminal-no_button = No button says or does "{ $wanted }" in the newest message with buttons.
terminal-no_file = There is no file { $path }.
terminal-clock_fixed = The clock can't be moved here: the weather is real. It can with --climate simulated or recorded:PATH.
terminal-no_duration = I couldn't read a time to wait in "{ $said }". Weeks, days, hours or minutes, up to { SPAN($days) }, like: P3D, PT6H, 3 days
terminal-no_json = That line is no JSON. One object a line, such as { "{" }"say": "/soil"{ "}" }
terminal-no_request = One of these a line: { "{" }"say": "..."{ "}" }, { "{" }"tap": "..."{ "}" }, { "{" }"location": [lat, lon]{ "}" }, { "{" }"photo": "path"{ "}" }, { "{" }"file": "path"{ "}" }, { "{" }"wait": "P3D"{ "}" }
terminal-no_place = A place is [latitude, longitude] in degrees: -90 to 90 and -180 to 180.
