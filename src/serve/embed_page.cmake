# Writes a C++ file with the page's assets: cmake -DOUTPUT=… "-DFILES=a|b" -P embed_page.cmake
# A file index.html is served as "/", NAME.html as "/NAME", any other under its own name.

set(types_html "text/html; charset=utf-8")
set(types_js "text/javascript; charset=utf-8")
set(types_css "text/css; charset=utf-8")
set(types_svg "image/svg+xml")

set(arrays "")
set(rows "")
set(number 0)
string(REPLACE "|" ";" FILES "${FILES}")
foreach(file IN LISTS FILES)
    get_filename_component(name ${file} NAME)
    string(REGEX REPLACE ".*\\." "" extension ${name})
    string(REPLACE ".html" "" path "/${name}")
    if(path STREQUAL "/index")
        set(path "/")
    endif()
    file(READ ${file} hex HEX)
    file(SHA256 ${file} tag)
    string(SUBSTRING ${tag} 0 16 tag)
    string(REGEX REPLACE "(..)" "0x\\1," bytes "${hex}")
    string(REGEX REPLACE "(0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,)" "\\1\n" bytes "${bytes}")
    string(APPEND arrays "constexpr unsigned char asset_${number}[] = {\n${bytes}};\n")
    string(APPEND rows "    {\"${path}\", \"${types_${extension}}\", \"\\\"${tag}\\\"\", text_of(asset_${number})},\n")
    math(EXPR number "${number} + 1")
endforeach()

file(WRITE ${OUTPUT} "#include \"serve/page_asset.h\"

#include <array>

namespace coilward {
namespace {

${arrays}
template <std::size_t size>
std::string_view text_of(const unsigned char (&bytes)[size]) {
    return {reinterpret_cast<const char*>(bytes), size};
}

} // namespace

std::span<const PageAsset> page_assets() {
    static const std::array<PageAsset, ${number}> assets{{
${rows}    }};
    return assets;
}

} // namespace coilward
")
