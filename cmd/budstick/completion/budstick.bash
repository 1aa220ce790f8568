# Completion of budstick for bash. Put this line into ~/.bashrc:
#
#   source <(budstick completion bash)

_budstick() {
  local -a words=()
  local word joining='' candidate
  # bash parts words at = too, which here belongs to its flag.
  for word in "${COMP_WORDS[@]:1:COMP_CWORD}"; do
    word=${word//[\"\'\\]/}
    if [[ $word == '=' && ${#words[@]} -gt 0 ]]; then
      words[${#words[@]} - 1]+='='
      joining=1
    elif [[ $joining ]]; then
      words[${#words[@]} - 1]+=$word
      joining=''
    else
      words+=("$word")
    fi
  done
  word=${words[${#words[@]} - 1]}
  COMPREPLY=()
  while IFS=$'\t' read -r candidate _; do
    [[ $word == --*=* ]] && candidate=${candidate#*=}
    # What a shell would part at must be quoted; bash does that for file names.
    [[ $candidate == *[!A-Za-z0-9_./=,-]* ]] && compopt -o filenames 2>/dev/null
    COMPREPLY+=("$candidate")
  done < <(budstick complete "${words[@]}" 2>/dev/null)
}

# Where nothing is offered, bash completes the names of files.
complete -o bashdefault -o default -F _budstick budstick
