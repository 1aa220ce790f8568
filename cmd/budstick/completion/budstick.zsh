#compdef budstick
# Completion of budstick for zsh. Put this line into ~/.zshrc, below compinit:
#
#   source <(budstick completion zsh)

_budstick() {
  local -a offered
  local line
  for line in "${(@f)$(budstick complete "${(@Q)words[2,CURRENT-1]}" "${(Q)PREFIX}" 2>/dev/null)}"; do
    [[ -n $line ]] && offered+=("${${line%%$'\t'*}//:/\\:}:${line#*$'\t'}")
  done
  if (( $#offered )); then
    _describe budstick offered
  else
    _files
  fi
}

# The file may be sourced, or lie on fpath under the name _budstick.
if [[ $funcstack[1] == _budstick ]]; then
  _budstick "$@"
else
  compdef _budstick budstick
fi
