# Weeks, harm and homes: from the table of ingredients, with a source for each figure there.
choosing-head = Before weeds come up, for home lawns of { $grasses }:
choosing-head_any = Before weeds come up, for home lawns; the longest-lasting first:
choosing-one = - { $name }: { $facts }
choosing-lasts = holds some { $low } to { SPAN($high, unit: "week") } by its rate.
choosing-lasts_unknown = how long it holds I have no figure for.
choosing-early_post = It also stops very small crabgrass.
choosing-beside_seed = Some labels let it go down beside new seed.
choosing-harms = NOT on { $grasses }: it can hurt it.
choosing-fits = My table has no harm to established { $grasses }; make sure the label names it.
choosing-some_fine_fescues = It hurts some fine fescues.
choosing-check_st_augustine_and_centipede = Check the label for St. Augustine and centipede.
choosing-not_for_homes = Not for home lawns, or for licensed hands only.
choosing-no_pre = - { $name }: it doesn't stop crabgrass seed. Take another against crabgrass.
choosing-which_grass = Which grass is it? Some ingredients hurt some grasses. Say for example: which product for tall fescue
choosing-law = Your label decides: it names your turf, the rate and the yearly maximum. Seeding within months? Then most of them stop that seed too.
