parting-remove_ask = Remove { $yard }? I stop watching it and stop messaging you about it.
parting-remove_kept = Its records (applications: { $applications }) and sizes (zones: { $zones }) are kept. Undo brings it back. Want the files first? Say: send me the records
parting-remove_shared = People you share it with lose it too.
parting-leave_ask = Leave { $yard }? It belongs to someone else. You need a new invitation to come back, and its record stays with them.
parting-button_remove = Remove { $yard }
parting-button_keep = Keep it
parting-kept = { $yard } stays. Nothing was changed.
parting-removed = Removed: { $yard }. Its records are kept. Undo brings it back. To delete all I keep about you, say: delete my data
parting-stopped = OK, no more messages from me. Nothing is deleted, and I answer when you write.
    What you applied still needs its water, and I won't remind you.
    To hear from me again: /start, or say: start again
parting-button_again = Start again
parting-button_privacy = What is kept
parting-again = Messages are on again. This is how things stand:
parting-never_stopped = Messages were never off. This is how things stand:
parting-privacy_yard = I keep where the lawn is (to about 30 feet), its zones and products. Also what you did and saw there, and your photos.
parting-privacy_person = About you: your name and number on this platform. A license only if you tell me one.
parting-privacy_why = Why: to call you in time, to work out amounts, and to keep your record.
parting-privacy_how_long = Your messages and my answers go after { SPAN($days) }. The rest stays until you delete it, or cannot be reached for a year.
parting-privacy_weather = Weather services get the place to about half a mile, and nothing about you.
parting-privacy_seen = Who sees it: you, those you share a yard with, and whoever runs this bot. I pass it to nobody else.
parting-privacy_others = What you do at yards of others is on their record, under your name.
parting-privacy_no_unread = Texts I can't read are not kept apart from your messages.
parting-privacy_unread = Texts I can't read I keep for { SPAN($days) }, without names, places and numbers, as you agreed. Nothing there leads to you.
parting-privacy_how =
    To have all of it, say: everything as a file
    To hear no more, say: stop. To delete all of it, say: delete my data
parting-button_file = Everything as a file
parting-button_erase = Delete everything
parting-button_unread_on = Keep unread texts
parting-button_unread_off = Keep no unread texts
parting-unread_on = Thank you. From now on I keep texts I can't read for { SPAN($days) }. I take out names, places and numbers as far as I can tell, and don't keep yours with them.
parting-unread_off = From now on I keep no texts I can't read. The earlier ones carry nothing that leads to you, so they go with the rest of their age.
parting-unread_not_here = Whoever runs this bot keeps no such texts, so there is nothing to agree to.
parting-everything = Here is all I keep, in one file (rows: { $count }). Photos and pictures are named in it, not inside.
parting-erase_ask = This deletes for good: yards { $yards }, records { $records }, photos { $photos }, messages { $messages }, and your name. Nobody can bring it back.
parting-erase_shared = Those you share a yard with lose it too.
parting-erase_others = What you did at yards of others stays on their record, without your name.
parting-erase_records = Paid for the work? Your state may want records kept for years. Take the files first: send me the records
parting-erase_word = To delete all of it, type: ERASE
parting-erase_group = In a group I delete nothing: its yards belong to everyone here. Write to me alone and say: delete my data. A yard leaves the group with: remove this yard
parting-not_erased = Nothing was deleted.
parting-erased = Deleted: your yards, records, photos, messages and your name. I know nothing of you any more. Thank you for having me; /start begins anew.
parting-button_stop = No more messages
