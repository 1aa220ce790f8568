" Colours of budstick journals. Made from the grammar of the entries; see
" grammar/editor in the project.
if exists("b:current_syntax")
  finish
endif

syntax case ignore
" Names hold letters, digits and _ - . /
syntax iskeyword @,48-57,_,45-47

syntax match budstickDay /^\d\{4}-\d\d-\d\d[^#]*/
syntax match budstickComment /#.*$/ contains=@Spell
syntax match budstickNumber contained /\<\d\+\%(\.\d\+\)\?\ze\%(\>\|\%(inches\|months\|month\|weeks\|years\|days\|inch\|week\|year\|day\|gal\|lbs\|min\|ppm\|cm\|ha\|in\|kg\|lb\|m2\|ml\|mm\|oz\|g\|h\|l\|%\)\>\)/
syntax match budstickNumber contained /\<\d\+\%(\.\d\+\)\?\ze%/
syntax match budstickNumber contained /\<\d\+\zeh\d\+min\>\|\%(\<\d\+h\)\@<=\d\+\zemin\>/
syntax match budstickUnit contained /\%(\<\d\+\)\@<=h\ze\d\+min\>\|\%(\<\d\+h\d\+\)\@<=min\>/
syntax match budstickDate contained /\<\d\{4}-\d\d\%(-\d\d\)\?\>/
syntax match budstickUnit contained /\%(\<\d\+\%(\.\d\+\)\?\s*\|\<per\s\+\)\@<=\%(inches\|months\|month\|weeks\|years\|days\|inch\|week\|year\|day\|gal\|lbs\|min\|ppm\|cm\|ha\|in\|kg\|lb\|m2\|ml\|mm\|oz\|g\|h\|l\)\>/
syntax match budstickUnit contained /\%(\d\s*\)\@<=%/
syntax match budstickUnit contained /\C\%(\<\d\+\%(\.\d\+\)\?\s*\)\@<=\u\{3}\>/
syntax match budstickText contained /"\%([^"\\]\|\\.\)*"\|[“”„‟″]\%([^"“”„‟″\\]\|\\.\)*["“”„‟″]/ contains=@Spell
syntax cluster budstickParts contains=budstickComment,budstickNumber,budstickDate,budstickUnit,budstickText

" Each verb has words of its own; any of them may be a name elsewhere.

syntax region budstickEntry_farm matchgroup=budstickVerb start=/^farm\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_farm
syntax keyword budstickWord_farm contained at cost country currency from happened hemisphere north note registration season south tag worker
highlight default link budstickWord_farm budstickWord

syntax region budstickEntry_variety matchgroup=budstickVerb start=/^variety\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_variety
syntax keyword budstickWord_variety contained as at by cost for happened licence monoembryonic note of parents picks polyembryonic protected rootstock seed sold species sport tag until use worker x
highlight default link budstickWord_variety budstickWord

syntax region budstickEntry_tree matchgroup=budstickVerb start=/^tree\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_tree
syntax keyword budstickWord_tree contained at cost from happened note on planted tag variety worker
highlight default link budstickWord_tree budstickWord

syntax region budstickEntry_limb matchgroup=budstickVerb start=/^limb\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_limb
syntax keyword budstickWord_limb contained at cost happened note of tag variety worker
highlight default link budstickWord_limb budstickWord

syntax region budstickEntry_place matchgroup=budstickVerb start=/^place\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_place
syntax keyword budstickWord_place contained area at cost happened holds note tag worker
highlight default link budstickWord_place budstickWord

syntax region budstickEntry_worker matchgroup=budstickVerb start=/^worker\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_worker
syntax keyword budstickWord_worker contained at cost happened note per tag worker
highlight default link budstickWord_worker budstickWord

syntax region budstickEntry_party matchgroup=budstickVerb start=/^party\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_party
syntax keyword budstickWord_party contained as at cost happened note tag worker
highlight default link budstickWord_party budstickWord

syntax region budstickEntry_method matchgroup=budstickVerb start=/^method\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_method
syntax keyword budstickWord_method contained after at check cost happened note stale tag worker
highlight default link budstickWord_method budstickWord

syntax region budstickEntry_cause matchgroup=budstickVerb start=/^cause\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_cause
syntax keyword budstickWord_cause contained at cost happened note tag worker
highlight default link budstickWord_cause budstickWord

syntax region budstickEntry_rate matchgroup=budstickVerb start=/^rate\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_rate
syntax keyword budstickWord_rate contained at cost happened is note tag worker
highlight default link budstickWord_rate budstickWord

syntax region budstickEntry_limit matchgroup=budstickVerb start=/^limit\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_limit
syntax keyword budstickWord_limit contained at cost for happened note tag worker
highlight default link budstickWord_limit budstickWord

syntax region budstickEntry_price matchgroup=budstickVerb start=/^price\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_price
syntax keyword budstickWord_price contained at cost each happened note per pot tag to worker
highlight default link budstickWord_price budstickWord

syntax region budstickEntry_share matchgroup=budstickVerb start=/^share\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_share
syntax keyword budstickWord_share contained area-days at by cost count happened note plant-days tag worker
highlight default link budstickWord_share budstickWord

syntax region budstickEntry_sow matchgroup=budstickVerb start=/^sow\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_sow
syntax keyword budstickWord_sow contained about as at cost for from happened note of seed tag worker
highlight default link budstickWord_sow budstickWord

syntax region budstickEntry_stick matchgroup=budstickVerb start=/^stick\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_stick
syntax keyword budstickWord_stick contained about as at by cost cuttings happened hormone note of tag worker wound
highlight default link budstickWord_stick budstickWord

syntax region budstickEntry_layer matchgroup=budstickVerb start=/^layer\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_layer
syntax keyword budstickWord_layer contained about as at by cost failed happened hormone note of on tag worker wound
highlight default link budstickWord_layer budstickWord

syntax region budstickEntry_cut matchgroup=budstickVerb start=/^cut\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_cut
syntax keyword budstickWord_cut contained about as at buds caliper cost from happened note of scions sticks store tag worker
highlight default link budstickWord_cut budstickWord

syntax region budstickEntry_buy matchgroup=budstickVerb start=/^buy\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_buy
syntax keyword budstickWord_buy contained about as at cost for from happened liners note of scions seed tag trees worker
highlight default link budstickWord_buy budstickWord

syntax region budstickEntry_graft matchgroup=budstickVerb start=/^graft\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_graft
syntax keyword budstickWord_graft contained about as at attached beside by caliper cost failed happened into limbs living note of over scions tag waiting with worker
highlight default link budstickWord_graft budstickWord

syntax region budstickEntry_check matchgroup=budstickVerb start=/^check\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_check
syntax keyword budstickWord_check contained about at cost dead failed happened lower note of plants rooted scions tag to took unsure up upper with worker
highlight default link budstickWord_check budstickWord

syntax region budstickEntry_sample matchgroup=budstickVerb start=/^sample\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_sample
syntax keyword budstickWord_sample contained about at cost dead failed happened lower note of plants rooted scions tag to took unsure up upper with worker
highlight default link budstickWord_sample budstickWord

syntax region budstickEntry_fail matchgroup=budstickVerb start=/^fail\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_fail
syntax keyword budstickWord_fail contained about at attached because cost failed happened living note of tag to waiting worker
highlight default link budstickWord_fail budstickWord

syntax region budstickEntry_revive matchgroup=budstickVerb start=/^revive\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_revive
syntax keyword budstickWord_revive contained about at attached because cost failed happened living note of tag to waiting worker
highlight default link budstickWord_revive budstickWord

syntax region budstickEntry_count matchgroup=budstickVerb start=/^count\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_count
syntax keyword budstickWord_count contained about at attached cost failed happened living missing note over tag waiting worker
highlight default link budstickWord_count budstickWord

syntax region budstickEntry_mark matchgroup=budstickVerb start=/^mark\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_mark
syntax keyword budstickWord_mark contained at because cost happened note off-type sick tag verified worker
highlight default link budstickWord_mark budstickWord

syntax region budstickEntry_clear matchgroup=budstickVerb start=/^clear\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_clear
syntax keyword budstickWord_clear contained at because cost happened note off-type sick tag verified worker
highlight default link budstickWord_clear budstickWord

syntax region budstickEntry_inspect matchgroup=budstickVerb start=/^inspect\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_inspect
syntax keyword budstickWord_inspect contained at by certificate cost happened note tag until worker
highlight default link budstickWord_inspect budstickWord

syntax region budstickEntry_note matchgroup=budstickVerb start=/^note\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_note
syntax keyword budstickWord_note contained at cost happened note tag worker
highlight default link budstickWord_note budstickWord

syntax region budstickEntry_tend matchgroup=budstickVerb start=/^tend\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_tend
syntax keyword budstickWord_tend contained at cost girdled happened headed note pruned rewrapped rubbed sprayed tag ties verified worker
highlight default link budstickWord_tend budstickWord

syntax region budstickEntry_treat matchgroup=budstickVerb start=/^treat\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_treat
syntax keyword budstickWord_treat contained at because cost happened note re-entry registered tag with worker
highlight default link budstickWord_treat budstickWord

syntax region budstickEntry_pot matchgroup=budstickVerb start=/^pot\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_pot
syntax keyword budstickWord_pot contained about as at attached cost failed happened living note of tag to waiting worker
highlight default link budstickWord_pot budstickWord

syntax region budstickEntry_move matchgroup=budstickVerb start=/^move\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_move
syntax keyword budstickWord_move contained about as at attached cost failed happened living note of tag to waiting worker
highlight default link budstickWord_move budstickWord

syntax region budstickEntry_split matchgroup=budstickVerb start=/^split\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_split
syntax keyword budstickWord_split contained about as at attached cost failed happened living note of tag waiting worker
highlight default link budstickWord_split budstickWord

syntax region budstickEntry_join matchgroup=budstickVerb start=/^join\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_join
syntax keyword budstickWord_join contained as at cost happened note tag worker
highlight default link budstickWord_join budstickWord

syntax region budstickEntry_release matchgroup=budstickVerb start=/^release\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_release
syntax keyword budstickWord_release contained about as at attached cost failed happened living note of tag waiting worker
highlight default link budstickWord_release budstickWord

syntax region budstickEntry_sever matchgroup=budstickVerb start=/^sever\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_sever
syntax keyword budstickWord_sever contained about as at attached cost failed happened living note of tag waiting worker
highlight default link budstickWord_sever budstickWord

syntax region budstickEntry_plant matchgroup=budstickVerb start=/^plant\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_plant
syntax keyword budstickWord_plant contained about as at attached cost failed happened living note of tag to variety waiting worker
highlight default link budstickWord_plant budstickWord

syntax region budstickEntry_lose matchgroup=budstickVerb start=/^lose\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_lose
syntax keyword budstickWord_lose contained about at attached because cost failed fruit happened living note of scions tag to waiting worker
highlight default link budstickWord_lose budstickWord

syntax region budstickEntry_cull matchgroup=budstickVerb start=/^cull\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_cull
syntax keyword budstickWord_cull contained about at attached because cost failed fruit happened living note of scions tag to waiting worker
highlight default link budstickWord_cull budstickWord

syntax region budstickEntry_sell matchgroup=budstickVerb start=/^sell\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_sell
syntax keyword budstickWord_sell contained about at attached cost each failed for fruit happened living note of paper per scions tag to waiting worker
highlight default link budstickWord_sell budstickWord

syntax region budstickEntry_give matchgroup=budstickVerb start=/^give\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_give
syntax keyword budstickWord_give contained about at attached because cost failed fruit happened living note of paper scions tag to waiting worker
highlight default link budstickWord_give budstickWord

syntax region budstickEntry_return matchgroup=budstickVerb start=/^return\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_return
syntax keyword budstickWord_return contained about as at attached because cost dead failed for from happened living note of tag waiting worker
highlight default link budstickWord_return budstickWord

syntax region budstickEntry_pick matchgroup=budstickVerb start=/^pick\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_pick
syntax keyword budstickWord_pick contained about at cost from fruit happened note tag worker
highlight default link budstickWord_pick budstickWord

syntax region budstickEntry_spend matchgroup=budstickVerb start=/^spend\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_spend
syntax keyword budstickWord_spend contained at cost for happened note on over tag to worker
highlight default link budstickWord_spend budstickWord

syntax region budstickEntry_work matchgroup=budstickVerb start=/^work\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_work
syntax keyword budstickWord_work contained at cost for happened note tag worker
highlight default link budstickWord_work budstickWord

syntax region budstickEntry_paid matchgroup=budstickVerb start=/^paid\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_paid
syntax keyword budstickWord_paid contained at cost from happened note paper tag worker
highlight default link budstickWord_paid budstickWord

syntax region budstickEntry_strike matchgroup=budstickVerb start=/^strike\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_strike
syntax keyword budstickWord_strike contained at because cost happened line note tag worker
highlight default link budstickWord_strike budstickWord

syntax region budstickEntry_allow matchgroup=budstickVerb start=/^allow\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_allow
syntax keyword budstickWord_allow contained at because cost happened note on tag worker
highlight default link budstickWord_allow budstickWord

syntax region budstickEntry_seal matchgroup=budstickVerb start=/^seal\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_seal
syntax keyword budstickWord_seal contained sha256
highlight default link budstickWord_seal budstickWord

syntax region budstickEntry_budstick matchgroup=budstickVerb start=/^budstick\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_budstick

syntax sync minlines=50

highlight default link budstickDay Title
highlight default link budstickVerb Statement
highlight default link budstickWord Keyword
highlight default link budstickComment Comment
highlight default link budstickText String
highlight default link budstickNumber Number
highlight default link budstickDate Constant
highlight default link budstickUnit Type

let b:current_syntax = "budstick"
