# Builds src/serve/page and the chart library (Debian's libjs-dygraphs) into the room.
find_file(COILWARD_CHART_LIBRARY dygraph.min.js PATHS /usr/share/javascript/dygraphs REQUIRED NO_DEFAULT_PATH)
file(GLOB page CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/serve/page/*)
set(files ${page} ${COILWARD_CHART_LIBRARY})
set(assets ${CMAKE_CURRENT_BINARY_DIR}/page_assets.cpp)
list(JOIN files "|" listed) # a list would not arrive as one
add_custom_command(OUTPUT ${assets}
    COMMAND ${CMAKE_COMMAND} -DOUTPUT=${assets} "-DFILES=${listed}" -P ${CMAKE_CURRENT_SOURCE_DIR}/serve/embed_page.cmake
    DEPENDS ${files} ${CMAKE_CURRENT_SOURCE_DIR}/serve/embed_page.cmake VERBATIM)
target_sources(coilward_serve PRIVATE ${assets})
set_source_files_properties(${assets} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
