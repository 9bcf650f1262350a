/* Debian's libgcc finds out by a call of its own C library where in a program it is
   told how to unwind after a panic. With musl's library that call is made here, from
   what every C library tells: the parts that the program was loaded in. */
#define _GNU_SOURCE
#include <link.h>

/* As libgcc reads it (from memory): 64 bits. */
struct found {
    unsigned long long flags;
    void *start, *end, *map, *eh_frame_header;
    unsigned long long reserved[7];
};

struct question {
    char *at;
    struct found *found;
};

static int look(struct dl_phdr_info *loaded, size_t size, void *data)
{
    struct question *question = data;
    char *header = NULL;
    int is_within = 0;
    (void)size;
    for (int part = 0; part < loaded->dlpi_phnum; part++) {
        const ElfW(Phdr) *is = &loaded->dlpi_phdr[part];
        char *start = (char *)(loaded->dlpi_addr + is->p_vaddr);
        if (is->p_type == PT_LOAD && question->at >= start && question->at < start + is->p_memsz)
            is_within = 1;
        if (is->p_type == PT_GNU_EH_FRAME)
            header = start;
    }
    if (is_within)
        question->found->eh_frame_header = header;
    return is_within && header;
}

int _dl_find_object(void *at, struct found *found)
{
    struct question question = { at, found };
    return dl_iterate_phdr(look, &question) ? 0 : -1;
}
