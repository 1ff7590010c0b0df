# Completion of dariole(1) for bash: source it, or install it as completions/dariole.
_dariole() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} verb=${COMP_WORDS[1]}
    local verbs="press proof weigh worksheet sitting impact larder begin rules"
    local common="-C --help" options=
    COMPREPLY=()
    if [ "$COMP_CWORD" -eq 1 ]; then
        mapfile -t COMPREPLY < <(compgen -W "$verbs --help --version" -- "$word")
        return
    fi
    case $before in
    -C | -o | --against)
        mapfile -t COMPREPLY < <(compgen -d -- "$word")
        return
        ;;
    --fail-on)
        mapfile -t COMPREPLY < <(compgen -W "error warning note none" -- "$word")
        return
        ;;
    --format)
        mapfile -t COMPREPLY < <(compgen -W "text json sarif" -- "$word")
        return
        ;;
    --measures)
        mapfile -t COMPREPLY < <(compgen -W "us us-label au nz uk ca metric jp" -- "$word")
        return
        ;;
    esac
    case $verb in
    press) options="-o -j --fail-on --heading-level --why --anew --take-over --watch -q --quiet" ;;
    proof) options="--format --fail-on --explain" ;;
    weigh) options="--measures --json --post" ;;
    worksheet) options="--json --steps --review" ;;
    sitting) options="--portions --day --json" ;;
    impact) options="--against --try --html --json -j" ;;
    larder) options="--json" ;;
    rules)
        mapfile -t COMPREPLY < <(compgen -W "$(dariole rules 2>/dev/null | cut -d ' ' -f 1)" -- "$word")
        return
        ;;
    esac
    if [[ $word == -* ]]; then
        mapfile -t COMPREPLY < <(compgen -W "$common $options" -- "$word")
    else
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
    fi
}
complete -o filenames -F _dariole dariole
