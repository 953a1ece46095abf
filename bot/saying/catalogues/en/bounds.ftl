bounds-name = That name is too long: up to { $most } letters, please. For example: Birch St 12
bounds-zones = A yard has up to { $most } zones here, and nothing of this was kept. Say alike ones as one: front strips 5 by 80 ft
bounds-yards = This chat has { $most } yards, the most it can. Give one up first: give up Birch St
bounds-places = You named { $most } new places within a day, the most one person can. Name the next one tomorrow.
bounds-figures = Please say it in parts: I read up to { $most } figures at a time, and nothing of this was taken. A few zones a message read well: front 60x40, back 50x30
