using System.Globalization;
using Coldpeel.Bench;
using Coldpeel.Speed;

CultureInfo.DefaultThreadCurrentCulture = CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
var options = new Options(args);
return options.Words switch
{
    ["make"] => MakeStages.Run(options),
    ["artwork"] => Kernels.Run<ArtworkBench>(options),
    ["yardstick"] => Yardstick.Run(options),
    ["sheets"] => Kernels.Run<SheetsBench>(options),
    ["day"] => Kernels.Run<DayBench>(options),
    ["heat"] => Kernels.Run<HeatBench>(options),
    ["serve"] => ServeBench.Run(options),
    ["screens"] => ScreensBench.Run(options),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine(
        "speed make|artwork|yardstick|sheets|day|heat|serve|screens [--quick] [--out FILE]; make also [--job JOB.json] [--runs N]; serve also [--orders N] [--each N] [--data FOLDER, filled once and kept]; screens also [--taps N]"
    );
    return 2;
}
