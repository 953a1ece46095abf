bounds-name = That name is too long (up to { $most } letters). For example: Birch St 12
bounds-zones = A yard can have up to { $most } zones, so I saved none of this. Combine similar ones: front strips 5 by 80 ft
bounds-yards = This chat has { $most } yards, the most it can. Remove one first: give up Birch St
bounds-places = You named { $most } new places in one day, the most one person can. Name the next one tomorrow.
bounds-figures = Please split that up: I read up to { $most } numbers at a time, and I took none of this. A few zones per message work well: front 60x40, back 50x30
