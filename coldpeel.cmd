@echo off
setlocal
rem Builds Coldpeel when the sources are newer than the last build, then runs it.
set "here=%~dp0"
set "program=%here%artifacts\bin\Coldpeel.Cli\release\coldpeel.dll"
set "stamp=%here%artifacts\.built"
set "stale="
where dotnet >nul 2>nul || (
  echo coldpeel: the .NET SDK 10 is needed, and no 'dotnet' was found: install it, then try again. 1>&2
  exit /b 2
)
if not exist "%program%" set "stale=1"
if not exist "%stamp%" set "stale=1"
rem PowerShell takes the folder from the environment, so that no letter of a path can end its text early.
if not defined stale (
  powershell -NoProfile -Command "$t = (Get-Item -Force -LiteralPath $env:stamp).LastWriteTimeUtc; $n = 'src','Directory.Build.props','Directory.Packages.props','global.json' | ForEach-Object { Get-ChildItem -LiteralPath (Join-Path $env:here $_) -Recurse -File } | Where-Object { $_.LastWriteTimeUtc -gt $t } | Select-Object -First 1; if ($n) { exit 1 }" || set "stale=1"
)
if defined stale (
  echo coldpeel: building once ^(about a minute the first time^)... 1>&2
  if not exist "%here%artifacts" mkdir "%here%artifacts"
  where npm >nul 2>nul && call npm ci --prefix "%here%fonts" --ignore-scripts --no-audit --no-fund --loglevel=error 1>&2
  type nul > "%stamp%.new"
  rem Where the libraries cannot be compiled for this machine beforehand, the program is built without: it only starts slower.
  dotnet build "%here%src\Cli\Coldpeel.Cli.csproj" -c Release --nologo -v quiet -clp:NoSummary -p:Ahead=true >nul 2>nul || dotnet build "%here%src\Cli\Coldpeel.Cli.csproj" -c Release --nologo -v quiet -clp:NoSummary 1>&2 || (
    echo coldpeel: the build failed; what it said stands above. 1>&2
    exit /b 3
  )
  move /y "%stamp%.new" "%stamp%" >nul
)
rem An app answers from its first minute on: what .NET would learn by watching itself comes too late for it, and the watching costs a third of that minute.
if not defined DOTNET_TieredPGO (
  if /i "%~1"=="serve" set "DOTNET_TieredPGO=0"
  if /i "%~1"=="demo" set "DOTNET_TieredPGO=0"
)
dotnet "%program%" %*
exit /b %errorlevel%
