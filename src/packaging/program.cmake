# The program twice, alike but for where it looks for the rules and drivers that ship: the one in the build folder in the
# source, the one to install beside itself.

include(GNUInstallDirs)
file(RELATIVE_PATH shipped_from_program /${CMAKE_INSTALL_BINDIR} /${CMAKE_INSTALL_DATADIR}/coilward)
set(shipped ${CMAKE_CURRENT_SOURCE_DIR}/packaging/shipped)

add_executable(coilward cli/main.cpp ${shipped}/in_the_source.cpp)
target_link_libraries(coilward PRIVATE coilward_cli)
target_compile_definitions(coilward PRIVATE COILWARD_SOURCE_FOLDER="${PROJECT_SOURCE_DIR}")
set_target_properties(coilward PROPERTIES RUNTIME_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR})

add_executable(coilward_to_install cli/main.cpp ${shipped}/beside_the_program.cpp)
target_link_libraries(coilward_to_install PRIVATE coilward_cli)
target_compile_definitions(coilward_to_install PRIVATE COILWARD_SHIPPED_FROM_PROGRAM="${shipped_from_program}")
target_link_options(coilward_to_install PRIVATE -Wl,-z,relro,-z,now) # nothing can be bent later; 2 ms of its start
set_target_properties(coilward_to_install PROPERTIES
    OUTPUT_NAME coilward RUNTIME_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR}/to-install)

target_compile_definitions(coilward_cli PUBLIC COILWARD_VERSION="${PROJECT_VERSION}")
