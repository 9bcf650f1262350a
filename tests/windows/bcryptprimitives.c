/* For the tests under Wine only: Windows has this library, Debian's Wine has not.
   Its one function fills memory with random bytes; an older library's does it. */
unsigned char __stdcall SystemFunction036(void *bytes, unsigned long count);

__declspec(dllexport) int __stdcall ProcessPrng(unsigned char *bytes, unsigned long long count)
{
    while (count > 0) {
        unsigned long part = count > 0x10000 ? 0x10000 : (unsigned long)count;
        if (!SystemFunction036(bytes, part))
            return 0;
        bytes += part;
        count -= part;
    }
    return 1;
}
