# Completion of budstick for fish. Write it where fish looks for it:
#
#   budstick completion fish > ~/.config/fish/completions/budstick.fish

function __budstick_complete
    set -l word (commandline -ct | string replace -r '^["\']' '')
    set -l before (commandline -opc)
    set -l offered (budstick complete $before[2..-1] "$word" 2>/dev/null)
    if set -q offered[1]
        printf '%s\n' $offered
    else
        __fish_complete_path (commandline -ct)
    end
end

complete -c budstick -f -a '(__budstick_complete)'
