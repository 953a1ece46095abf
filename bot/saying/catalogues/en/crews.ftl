crews-head_none = { $yard } is yours alone. Invite someone to help or to look on:
crews-head = { $yard }: shared with
crews-member = { $name }: { $role }, since { $since }
crews-lately = Last: { $zones }, { $on }, confirmed by { $name }.
crews-role_see = may see
crews-role_confirm = may see and confirm
crews-role_change = may see, confirm and change
crews-button_invite_see = Invite to see
crews-button_invite_confirm = Invite to confirm
crews-button_invite_change = Invite to change
crews-button_all_see = To all { $count } yards, to see
crews-button_all_confirm = To all { $count } yards, to confirm
crews-button_all_change = To all { $count } yards, to change
crews-button_remove = Remove { $name }
crews-button_leave = Leave { $yard }
crews-group = In a group chat, everyone in the group shares its yards.
crews-member_view = { $yard } is shared with you. You { $role }. Tap the button to leave.
crews-invited_link = Send this to one person; they { $role } { $yard }. It works once, until { $until }:
    { $how }
crews-invited = Send this to one person; they { $role } { $yard }. It works once, until { $until }. They type to me:
    { $how }
crews-joined = { $yard } is now shared with you. You { $role }. /today lists the work, /yard shows the yard.
crews-joined_all = { $count } yards are shared with you now: you { $role } them; new ones come by themselves. /today lists what is to be done.
crews-own_yard = { $yard } is already yours. The invitation still works: send it to someone else.
crews-no_invitation = I don't know that invitation. Ask for a new one: /crew
crews-used = That invitation is used up. Each one works once. Ask for a new one: /crew
crews-ran_out = That invitation has expired. Ask for a new one: /crew
crews-left = You left { $yard }. You need a new invitation to come back.
crews-removed = { $name } no longer has access to { $yard }, starting now. Open invitations to it are canceled.
crews-gone_already = That is already gone.
crews-may_not = { $role ->
    [see] { $yard } is shared with you to see only. Ask the owner: /crew
    [confirm] { $yard } is shared with you to see and confirm only. Ask the owner: /crew
   *[change] { $yard } is shared with you to see, confirm and change, not for this. Ask the owner: /crew
 }
crews-admins_only = Only this group's admins can do that: it affects everyone here. Ask one of them.
crews-all_of_them = all your yards
