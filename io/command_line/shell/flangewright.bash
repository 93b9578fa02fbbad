# Completion of flangewright in bash. The program itself says what may follow: --complete.
_flangewright() {
    local current=${COMP_WORDS[COMP_CWORD]} offer word
    local -a before=()
    for word in "${COMP_WORDS[@]:1:COMP_CWORD-1}"; do
        [[ $word == = ]] || before+=("$word") # --out=FOLDER comes in three words
    done
    [[ $current != = ]] || current=
    local quote=
    [[ $current != [\"\']* ]] || quote=${current:0:1}
    current=${current#[\"\']}
    current=${current//\\/}
    COMPREPLY=()
    while IFS= read -r offer; do
        case $offer in
        :*) _flangewright_files "$current" "${offer#:}" ;;
        "$current"*)
            [[ -n $quote ]] || printf -v offer %q "$offer" # names of sheets have blanks
            COMPREPLY+=("$offer")
            ;;
        esac
    done < <("${COMP_WORDS[0]/#\~/$HOME}" --complete "${before[@]}" "$current" 2>/dev/null)
}

# _flangewright_files BEGUN KIND: "folders", "files", "files toml"; folders lead to files.
_flangewright_files() {
    local name
    compopt -o filenames 2>/dev/null # quoting and slashes are left to bash; fails outside of it
    while IFS= read -r name; do
        COMPREPLY+=("$name")
    done < <(
        compgen -d -- "$1"
        case $2 in
        files\ *) compgen -f -X "!*.${2#files }" -- "$1" ;;
        files) compgen -f -- "$1" ;;
        esac | while IFS= read -r name; do [[ -d $name ]] || printf '%s\n' "$name"; done
    )
}

complete -F _flangewright flangewright
