#include "base/program.h"

#include <link.h>
#include <stdint.h>
#include <string.h>

/* where the program lies in memory, with its headers in front; the linker knows */
extern const char __executable_start[];

static size_t
aligned(size_t bytes)
{
    return (bytes + 3) & ~(size_t)3;
}

/* the build id among the notes of one segment */
static struct slice
id_in(struct slice notes)
{
    ElfW(Nhdr) head;
    while (notes.length >= sizeof head) {
        memcpy(&head, notes.at, sizeof head);
        size_t name = aligned(head.n_namesz), id = aligned(head.n_descsz);
        if (notes.length - sizeof head < name || notes.length - sizeof head - name < id)
            break;
        const char *at = notes.at + sizeof head;
        if (head.n_type == NT_GNU_BUILD_ID && head.n_namesz == sizeof ELF_NOTE_GNU &&
            memcmp(at, ELF_NOTE_GNU, sizeof ELF_NOTE_GNU) == 0)
            return (struct slice){at + name, head.n_descsz};
        notes = (struct slice){at + name + id, notes.length - sizeof head - name - id};
    }
    return (struct slice){"", 0};
}

struct slice
program_id(void)
{
    ElfW(Ehdr) elf;
    ElfW(Phdr) part;
    memcpy(&elf, __executable_start, sizeof elf);
    if (memcmp(elf.e_ident, ELFMAG, SELFMAG) != 0 || elf.e_phentsize != sizeof part)
        return (struct slice){"", 0};
    const char *parts = __executable_start + elf.e_phoff;
    uintptr_t linked_at = 0; /* the address that the headers were linked for */
    for (size_t i = 0; i < elf.e_phnum; i++) {
        memcpy(&part, parts + i * sizeof part, sizeof part);
        if (part.p_type == PT_LOAD && part.p_offset == 0)
            linked_at = (uintptr_t)part.p_vaddr;
    }
    for (size_t i = 0; i < elf.e_phnum; i++) {
        memcpy(&part, parts + i * sizeof part, sizeof part);
        if (part.p_type != PT_NOTE)
            continue;
        const char *at = __executable_start + ((uintptr_t)part.p_vaddr - linked_at);
        struct slice id = id_in((struct slice){at, (size_t)part.p_memsz});
        if (id.length > 0)
            return id;
    }
    return (struct slice){"", 0};
}
