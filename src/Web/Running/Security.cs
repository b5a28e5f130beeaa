namespace KittingBee.Web.Running;

/// <summary>What every answer carries.</summary>
public static class Security
{
    /// <summary>Scripts, styles and pictures come from the program itself; nothing inline runs and nobody may frame a page.</summary>
    public static HeaderPolicyCollection Headers() => new HeaderPolicyCollection()
        .AddDefaultSecurityHeaders()
        .AddContentSecurityPolicy(policy =>
        {
            policy.AddDefaultSrc().Self();
            policy.AddImgSrc().Self().Data();
            policy.AddObjectSrc().None();
            policy.AddBaseUri().None();
            policy.AddFormAction().Self();
            policy.AddFrameAncestors().None();
        })
        .AddPermissionsPolicy(policy =>
        {
            // The camera reads the labels of bags; nothing else of the device is ever asked for.
            policy.AddCamera().Self();
            policy.AddMicrophone().None();
            policy.AddGeolocation().None();
            policy.AddDisplayCapture().None();
        })
        .AddReferrerPolicySameOrigin();
}
