namespace Coldpeel.Workshop.Press;

/// <summary>What a setting rests on, weakest first.</summary>
public enum Evidence
{
    /// <summary>Everybody does it so; nobody has published why.</summary>
    CommonPractice,

    /// <summary>The heat model with figures from tables.</summary>
    Model,

    /// <summary>The heat model with contacts measured at this press.</summary>
    CalibratedModel,

    /// <summary>Pressed, washed and looked at here.</summary>
    Trial,
}

/// <summary>Evidence as people and files say it.</summary>
public static class EvidenceWords
{
    /// <summary>The words of a file: "common practice", "model", "calibrated model", "trial".</summary>
    public static string Of(Evidence evidence) =>
        evidence switch
        {
            Evidence.Model => "model",
            Evidence.CalibratedModel => "calibrated model",
            Evidence.Trial => "trial",
            _ => "common practice",
        };

    /// <summary>The evidence of a file's words, or null when there is none by that name.</summary>
    public static Evidence? Read(string words) =>
        Enum.GetValues<Evidence>().Cast<Evidence?>().FirstOrDefault(e => Of(e!.Value) == words);
}
